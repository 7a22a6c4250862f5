"""One phase is kept with a margin of some bar upstream of the regulator.

Reason
    A regulator wanders by a bar or two, ages, and the model of the boundary has its own error. A
    method that runs a few bar above the boundary forms two phases on a bad day. Where the room is
    warmer than the regulator, the line upstream of it is taken at the room's temperature.

Unsound
    kind: method
    oven_temperature: 50 degC
    outlet_pressure: 103 bar  # <- here
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

Remedy
    Raise the outlet pressure, or lower the temperature.

Source
    15 bar, unless the lab's policy says otherwise: common practice, no source. Boundary: measured
    bubble pressures, as in the accuracy table.
"""

from collections.abc import Iterator

from methodlint.judging.ask.phase import (
    band_words,
    cooler,
    higher_outlet,
    parting,
    parting_in_cells,
    settings_at,
    thinnest_place,
)
from methodlint.judging.ask.rule import Finding, RunCase, When, bar, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)
CAUSES = ("temperature.drops-along-column",)

_MARGIN = 15e5


def judge(case: RunCase) -> Iterator[Finding]:
    """Look for the thinnest margin, unless it is reported as two phases."""
    run = case.run
    policy = case.policy.boundary_margin
    wanted = policy.si if policy else _MARGIN
    room = case.room.highest_temperature if case.room else None
    thin = thinnest_place(run, room.si if room else None)
    row = int(thin.margin.argmin())
    least, above = float(thin.margin[row]), float(thin.band.above[row])
    if least >= wanted:
        return
    # The rules on two phases know the run's own temperatures, not a line that the room warms.
    if least < above and (run.ask(parting) is not None or parting_in_cells(run)):
        return
    warm = float(thin.temperature[row])
    spans = run.windows(wanted - thin.margin)
    yield case.finding(
        settings_at(case),
        "caution",
        f"{show(float(thin.pressure[row]), 'pressure')} at the {thin.name}, the phase boundary at "
        f"{show(warm, 'temperature')} is {show(float(thin.boundary[row]), 'pressure')} "
        f"({band_words(run, float(thin.w_modifier[row]), warm)}): margin {show(least, 'pressure')}, "
        f"{show(wanted, 'pressure')} recommended; thinnest at "
        f"{show(float(run.time[row]), 'time', 'min')}",
        found=bar(least),
        limit=bar(wanted),
        band=bar(above),
        when=When(spans[0][0], spans[-1][1]),
        remedy="raise the outlet pressure or lower the oven temperature",
        candidates=higher_outlet(case) + cooler(case),
        also=(case.at("method.oven_temperature"),),
    )
