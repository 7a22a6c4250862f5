"""The mobile phase leaves the column as one phase.

Reason
    Where CO2 and modifier form two phases, retention, peak shape and the detector's
    baseline go. What counts is one phase, not a temperature or pressure above a critical point:
    liquid CO2 with modifier at 25 degC is sound, and so is 90 % methanol. Downstream of the regulator
    two phases are by design. The boundary is that of the composition that is there at that
    moment, and the pressure includes what the tubes downstream of the column cost.

Unsound
    kind: method
    oven_temperature: 60 degC
    outlet_pressure: 90 bar  # <- here
    mobile_phase: {modifier: {liquid: 2-propanol, line: modifier-1}}
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 8 min, modifier_share: 25 % v/v}

Sound
    kind: method
    oven_temperature: 60 degC
    outlet_pressure: 150 bar
    mobile_phase: {modifier: {liquid: 2-propanol, line: modifier-1}}
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 8 min, modifier_share: 25 % v/v}

Sound, because the liquid is one phase above 64 bar at 25 degC
    kind: method
    oven_temperature: 25 degC
    outlet_pressure: 110 bar
    programme: [{time: 0 min, modifier_share: 30 % v/v}]

Remedy
    Raise the outlet pressure, or lower the oven temperature; the message says how far.

Source
    Phase boundary: Peng and Robinson 1976 with parameters fitted to published isotherms. Margin
    inside the model's band: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.phase import (
    OutletBySettings,
    cooler,
    higher_outlet,
    parting,
    settings_at,
)
from methodlint.judging.ask.rule import Finding, RunCase, bar, show

SUBJECT = "run"
LINES = True
CLASSES = ("fault", "caution")
NEEDS = ("phase",)
CAUSES = (
    "phase.two-phase-in-cell",
    "phase.near-critical-compressible",
    "phase.density-drop-along-column",
    "pressure.margin-to-boundary-thin",
    "temperature.drops-along-column",
)


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at the margin downstream of the column at every moment and every composition."""
    settings = case.outlet_by_settings
    if settings is not None:
        yield from _by_settings(case, settings)
        return
    run, found = case.run, case.run.ask(parting)
    if found is None or found.way != "setting":
        return
    place, row = found.place, found.row
    pressure, boundary = float(place.pressure[row]), float(place.boundary[row])
    said = "may have two phases" if found.verdict.possible else "has two phases"
    yield case.finding(
        settings_at(case),
        found.verdict.grade,
        f"the mobile phase {said} at the {place.name} {found.window()} ({found.shares(run)}): "
        f"{show(pressure, 'pressure')} there, the boundary at "
        f"{show(float(place.temperature[row]), 'temperature')} is {show(boundary, 'pressure')} "
        f"({found.band_words}), margin {show(pressure - boundary, 'pressure')}",
        found=bar(pressure),
        limit=bar(boundary),
        band=bar(found.band),
        when=found.when,
        possible=found.verdict.possible,
        remedy="raise the outlet pressure or lower the oven temperature",
        candidates=higher_outlet(case, above=boundary) + cooler(case),
        also=(case.at("method.oven_temperature"),),
    )


def _by_settings(case: RunCase, outlet: OutletBySettings) -> Iterator[Finding]:
    """Without a rehearsal: what holds on any bench, and what may hold on one."""
    if not outlet.possible:
        return
    low, high = (100.0 * share for share in outlet.shares)
    span = f"{low:.0f} %" if high - low < 0.5 else f"{low:.0f}-{high:.0f} %"
    set_to = show(outlet.pressure, "pressure")
    at_most = show(outlet.highest, "pressure")
    said = "has two phases" if outlet.certain else "may have two phases"
    where = (
        f"{at_most} at most there with {set_to} set"
        if outlet.certain
        else f"{set_to} set, {at_most} at most there"
    )
    band = f"band -{outlet.below / 1e5:.2g} to +{outlet.above / 1e5:.2g} bar"
    band += "" if outlet.validated else ", not validated here"
    pressure = outlet.highest if outlet.certain else outlet.pressure
    yield case.finding(
        settings_at(case),
        "fault" if outlet.certain else "caution",
        f"the mobile phase {said} at the column outlet ({span} {outlet.modifier or 'modifier'}): "
        f"{where}, the boundary at {show(outlet.temperature, 'temperature')} is "
        f"{show(outlet.boundary, 'pressure')} ({band}), margin "
        f"{show(pressure - outlet.boundary, 'pressure')}; judged by the settings alone",
        found=bar(pressure),
        limit=bar(outlet.boundary),
        band=bar(outlet.below if outlet.certain else outlet.above),
        possible=not outlet.certain,
        remedy=_remedy(case, outlet),
        also=(case.at("method.oven_temperature"),),
    )


def _remedy(case: RunCase, outlet: OutletBySettings) -> str:
    wanted = [kind for kind in ("column", "instrument") if kind not in case.documents]
    said = " and the ".join(wanted) or "missing data"
    return (
        f"supply the {said} to have a setting tried; every composition of the programme has one "
        f"phase above {show(outlet.clear_above, 'pressure')}"
    )
