"""A programme of outlet pressure or temperature stays in one phase on its way.

Reason
    Both ends of a programme can be sound while the way between them leads through two phases:
    warming at low pressure first, and raising the pressure afterwards. A regulator that cannot
    follow the programme is somewhere else than the method says.

Unsound
    kind: method
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 8 % v/v}
    oven_temperature: 35 degC
    outlet_pressure: 95 bar
    programme:  # <- here
      - {time: 0 min, outlet_pressure: 95 bar, temperature: 35 degC}
      - {time: 3 min, outlet_pressure: 95 bar, temperature: 65 degC}
      - {time: 4 min, outlet_pressure: 180 bar, temperature: 65 degC}

Sound, because the pressure goes up first
    kind: method
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 8 % v/v}
    oven_temperature: 35 degC
    outlet_pressure: 95 bar
    programme:
      - {time: 0 min, outlet_pressure: 95 bar, temperature: 35 degC}
      - {time: 1 min, outlet_pressure: 180 bar, temperature: 35 degC}
      - {time: 4 min, outlet_pressure: 180 bar, temperature: 65 degC}

Unsound, because the regulator cannot follow
    kind: method
    programme:
      - {time: 0 min, modifier_share: 10 % v/v, outlet_pressure: 150 bar}
      - {time: 1 min, modifier_share: 10 % v/v, outlet_pressure: 250 bar}  # <- here
    ---
    kind: instrument
    regulator: {ramp: 40}

Sound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 10 % v/v, outlet_pressure: 150 bar}
      - {time: 4 min, modifier_share: 10 % v/v, outlet_pressure: 250 bar}
    ---
    kind: instrument
    regulator: {ramp: 40}

Remedy
    On the way up raise the pressure first, then the temperature; on the way down the reverse.

Source
    Phase boundary: Peng and Robinson 1976 with parameters fitted to published isotherms; the
    ramp is that of the instrument card. Common practice, no source.
"""

from collections.abc import Iterator
from itertools import pairwise

from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.phase import higher_outlet, parting
from methodlint.judging.ask.rule import Finding, Measure, RunCase, When, bar, number, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run",)
CAUSES = (
    "phase.two-phase-in-cell",
    "phase.near-critical-compressible",
    "phase.density-drop-along-column",
    "pressure.margin-to-boundary-thin",
    "temperature.drops-along-column",
)


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at the way between sound ends, and at the ramp asked of the regulator."""
    yield from _way(case)
    yield from _ramp(case)


def _way(case: RunCase) -> Iterator[Finding]:
    found = case.run.ask(parting)
    if found is None or found.way != "programme":
        return
    place, row = found.place, found.row
    pressure, boundary = float(place.pressure[row]), float(place.boundary[row])
    said = "may pass" if found.verdict.possible else "passes"
    yield case.finding(
        "method.programme",
        found.verdict.grade,
        f"the programme begins and ends with one phase but {said} through two phases at the "
        f"{place.name} {found.window()}; worst {show(pressure, 'pressure')} at "
        f"{show(float(place.temperature[row]), 'temperature')}, the boundary there is "
        f"{show(boundary, 'pressure')} ({found.band_words}), margin "
        f"{show(pressure - boundary, 'pressure')}",
        found=bar(pressure),
        limit=bar(boundary),
        band=bar(found.band),
        when=found.when,
        possible=found.verdict.possible,
        remedy="raise the pressure first and then the temperature; going down, the reverse",
        candidates=higher_outlet(case, above=boundary),
    )


def _ramp(case: RunCase) -> Iterator[Finding]:
    able = case.get("instrument.regulator.ramp")
    if able is None or case.method is None:
        return
    for before, row in pairwise(filled_rows(case.method)):
        if before.outlet_pressure is None or row.outlet_pressure is None:
            continue
        change = abs(row.outlet_pressure - before.outlet_pressure) / 1e5
        minutes = 0.0 if row.step else (row.time - before.time) / 60.0
        if change <= 0.1 or change <= able * minutes * (1.0 + 1e-9):
            continue
        needed = change / able
        asked = f"{number(change / minutes, 3)} bar per minute" if minutes > 0.0 else "a jump"
        yield case.finding(
            row.places.get("outlet_pressure", "method.programme"),
            "fault",
            f"{row.number} asks for {asked} ({number(change, 3)} bar), the regulator follows "
            f"{number(able, 3)} bar per minute",
            found=Measure(change / minutes if minutes > 0.0 else change, "bar/min"),
            limit=Measure(able, "bar/min"),
            when=When(before.time, row.time),
            remedy=f"give this change {number(needed, 2)} min",
            also=(case.at("instrument.regulator.ramp"),),
        )
        return
