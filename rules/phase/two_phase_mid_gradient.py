"""The mobile phase is one phase at every composition on the way of a gradient.

Reason
    The boundary is highest at a composition in between: both ends of a gradient can be sound
    and the middle not. So every composition that passes the outlet is looked at, with the dwell
    and the way through the column counted in.

Unsound
    kind: method
    oven_temperature: 60 degC
    outlet_pressure: 93 bar  # <- here
    mobile_phase: {modifier: {liquid: ethanol, line: modifier-2}}
    programme:
      - {time: 0 min, modifier_share: 1 % v/v}
      - {time: 6 min, modifier_share: 70 % v/v}

Sound
    kind: method
    oven_temperature: 60 degC
    outlet_pressure: 150 bar
    mobile_phase: {modifier: {liquid: ethanol, line: modifier-2}}
    programme:
      - {time: 0 min, modifier_share: 1 % v/v}
      - {time: 6 min, modifier_share: 70 % v/v}

Remedy
    Raise the outlet pressure above the highest boundary on the way, or lower the temperature.

Source
    Phase boundary: Peng and Robinson 1976 with parameters fitted to published isotherms. A front
    that is through in less than 5 s is a caution: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.phase import cooler, higher_outlet, parting, settings_at
from methodlint.judging.ask.rule import Finding, RunCase, bar, show

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

_FRONT_IS_THROUGH = 5.0


def judge(case: RunCase) -> Iterator[Finding]:
    """Scan the compositions between ends that are sound."""
    run, found = case.run, case.run.ask(parting)
    if found is None or found.way != "gradient":
        return
    place, row = found.place, found.row
    pressure, boundary = float(place.pressure[row]), float(place.boundary[row])
    passing = 0.0 < found.longest < _FRONT_IS_THROUGH
    said = "may have two phases" if found.verdict.possible else "has two phases"
    short = " while a front passes in less than 5 s" if passing else ""
    yield case.finding(
        settings_at(case),
        "caution" if passing else found.verdict.grade,
        f"both ends of the gradient are one phase, but in between the mobile phase {said} at the "
        f"{place.name}{short} {found.window()} ({found.shares(run)}); worst at "
        f"{100 * float(place.share[row]):.0f} %: {show(pressure, 'pressure')} there, the boundary "
        f"at {show(float(place.temperature[row]), 'temperature')} is "
        f"{show(boundary, 'pressure')} ({found.band_words}), margin "
        f"{show(pressure - boundary, 'pressure')}",
        found=bar(pressure),
        limit=bar(boundary),
        band=bar(found.band),
        when=found.when,
        possible=found.verdict.possible or passing,
        remedy="raise the outlet pressure or lower the oven temperature",
        candidates=higher_outlet(case, above=boundary) + cooler(case),
        also=(case.at("method.programme"),),
    )
