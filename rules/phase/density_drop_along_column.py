"""The density of the mobile phase falls by less than 15 % along the column.

Reason
    Retention follows density. Where it falls much from inlet to outlet, the column works at a
    spread of conditions, and the same settings on another particle size give other retention.
    With the 1.7 um particles of a lean method the fall can be a fifth; 3 % is normal.

Unsound
    kind: method
    oven_temperature: 50 degC
    outlet_pressure: 130 bar  # <- here
    flow: 1.2 mL/min
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 4 % v/v}
    programme: []
    ---
    kind: column
    particle_size: 1.7 um

Sound
    kind: method
    oven_temperature: 50 degC
    outlet_pressure: 180 bar
    flow: 1.2 mL/min
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 4 % v/v}
    programme: []
    ---
    kind: column
    particle_size: 1.7 um

Sound, because a fall of a few per cent is normal
    kind: method
    programme: [{time: 0 min, modifier_share: 5 % v/v}]

Remedy
    Raise the outlet pressure, or lower the flow.

Source
    3 % along a conventional column and 20 % along a small-particle one: Glenne et al., Anal.
    Chem. 2020, 10.1021/acs.analchem.0c03106 (abstract only). Limit of 15 %: common practice, no
    source. Silent from 20 % modifier on for particles of up to 2 um whose suitability was measured
    at the run's own rhythm: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.column import column_ends
from methodlint.judging.ask.phase import higher_outlet, settings_at
from methodlint.judging.ask.pressure import slower
from methodlint.judging.ask.rule import Finding, RunCase, When, percent, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)
CAUSES = ("temperature.drops-along-column",)

_LIMIT = 0.15
_SMALL_PARTICLES = 2.0e-6
_RICH = 0.20


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the density at both ends of the bed, the same composition at both."""
    run, ends = case.run, column_ends(case.run)
    fall = ends.fall.copy()
    if _proved(case):
        fall[run.column_outlet_share >= _RICH] = 0.0
    row = int(fall.argmax())
    if float(fall[row]) <= _LIMIT:
        return
    spans = run.windows(fall - _LIMIT)
    when = When(spans[0][0], spans[-1][1])
    pressure = float(run.column_outlet_pressure[row])
    yield case.finding(
        settings_at(case),
        "caution",
        f"density falls from {ends.inlet[row]:.0f} to {ends.outlet[row]:.0f} kg/m3 along the "
        f"column, {100 * float(fall[row]):.0f} % (limit 15 %), at "
        f"{show(float(run.time[row]), 'time', 'min')}; errors of the model are alike at both "
        f"ends and mostly cancel",
        found=percent(float(fall[row])),
        limit=percent(_LIMIT),
        band=percent(float(fall[row] * run.resistance_band.above[row])),
        band_below=percent(float(fall[row] * run.resistance_band.below[row])),
        when=when,
        remedy="raise the outlet pressure or lower the flow",
        candidates=higher_outlet(case, above=pressure) + slower(case, when),
        also=(case.at("method.flow"),),
    )


def _proved(case: RunCase) -> bool:
    """A small-particle column whose suitability series was measured at the run's rhythm."""
    size = case.get("column.particle_size")
    at_rhythm = bool(case.get("method.suitability.at_rhythm"))
    return at_rhythm and size is not None and size.si <= _SMALL_PARTICLES
