"""One phase is kept with some bar to spare before the regulator.

Reason
    A regulator wanders by a bar or two, ages, and the model of the boundary has its own error. A
    method that runs a few bar above the boundary parts on a bad day. Below 31 degC the pressure
    is compared with the saturation of CO2 at the warmest place in front of the regulator.

Unsound
    kind: method
    oven_temperature: 50 degC
    outlet_pressure: 100 bar  # <- here
    programme: [{time: 0 min, modifier_share: 15 % v/v}]

Sound
    kind: method
    oven_temperature: 50 degC
    outlet_pressure: 120 bar
    programme: [{time: 0 min, modifier_share: 15 % v/v}]

Sound, because little modifier never parts at 60 degC
    kind: method
    oven_temperature: 60 degC
    outlet_pressure: 110 bar
    programme: [{time: 0 min, modifier_share: 0.5 % v/v}]

Put right
    Raise the outlet pressure, or lower the temperature.

Source
    15 bar, unless the lab's policy says otherwise: common practice, no source. Saturation of CO2:
    Span and Wagner 1996.
"""

from collections.abc import Iterator

from methodlint.judging.for_rules import (
    Finding,
    RunCase,
    When,
    bar,
    co2,
    cooler,
    higher_outlet,
    highest_boundary,
    places_before_regulator,
    settings_at,
    show,
    warmest_before_regulator,
)

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)
CAUSES = ("temperature.drops-along-column",)

_MARGIN = 15e5


def judge(case: RunCase) -> Iterator[Finding]:
    """Look for the thinnest margin that is still beyond the model's band."""
    run = case.run
    policy = case.policy.boundary_margin
    wanted = policy.si if policy else _MARGIN
    oven = float(run.programme.oven_temperature.max())
    room = case.room.highest_temperature if case.room else None
    warm = warmest_before_regulator(run, room.si if room else None)
    if max(oven, warm) < co2.CRITICAL_TEMPERATURE:
        boundary, where = highest_boundary(run, warm), "saturation of CO2"
        margin, name = run.outlet_pressure - boundary, "regulator"
        row = int(margin.argmin())
    else:
        places = places_before_regulator(run)
        thin = min(places, key=lambda place: float(place.margin.min()))
        margin, name, where = thin.margin, thin.name, "phase boundary"
        row = int(margin.argmin())
        boundary, warm = float(thin.boundary[row]), float(thin.temperature[row])
    least = float(margin[row])
    if not run.boundary_band <= least < wanted:
        return
    spans = run.windows(wanted - margin)
    yield case.finding(
        settings_at(case),
        "caution",
        f"{show(boundary + least, 'pressure')} at the {name}, the {where} at "
        f"{show(warm, 'temperature')} is {show(boundary, 'pressure')} (band "
        f"{show(run.boundary_band, 'pressure')}): {show(least, 'pressure')} to spare, "
        f"{show(wanted, 'pressure')} wanted; thinnest at "
        f"{show(float(run.time[row]), 'time', 'min')}",
        found=bar(least),
        limit=bar(wanted),
        band=bar(run.boundary_band),
        when=When(spans[0][0], spans[-1][1]),
        remedy="raise the outlet pressure or lower the oven temperature",
        candidates=higher_outlet(case) + cooler(case),
        also=(case.at("method.oven_temperature"),),
    )
