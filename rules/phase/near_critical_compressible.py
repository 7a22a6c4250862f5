"""The compressibility of the mobile phase at the column outlet is low enough to be reproducible.

Reason
    Near the critical region density, and with it retention, follows every bar of the regulator
    and every tenth of a degree. It is the compressibility of the *mixture* that counts: with a
    fifth of modifier it is far less compressible than CO2 alone.

Unsound
    kind: method
    oven_temperature: 55 degC
    outlet_pressure: 110 bar  # <- here
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 2 % v/v}
    programme: []

Sound
    kind: method
    oven_temperature: 55 degC
    outlet_pressure: 170 bar
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 2 % v/v}
    programme: []

Sound, because the mixture is hardly compressible with a fifth of modifier
    kind: method
    oven_temperature: 40 degC
    outlet_pressure: 105 bar
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 20 % v/v}
    programme: []

Remedy
    Raise the outlet pressure or lower the temperature; both move away from the critical region.

Source
    Limits 1 % per bar and 3 % per degree: common practice, no source. Robustness is worst at low
    pressure, high temperature and little modifier: Glenne et al., Anal. Chem. 2020,
    10.1021/acs.analchem.0c03106 (abstract only).
"""

from collections.abc import Iterator

import numpy as np

from methodlint.judging.ask.column import outlet_compressibility_band
from methodlint.judging.ask.phase import cooler, higher_outlet, settings_at
from methodlint.judging.ask.rule import (
    Finding,
    Measure,
    RunCase,
    When,
    bar,
    judge_limit,
    number,
    show,
)

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)
CAUSES = ("phase.density-drop-along-column", "temperature.drops-along-column")

_PER_BAR = 0.01
_PER_DEGREE = 0.03


def applies(case: RunCase) -> bool:
    """A method that programmes density on purpose wants a compressible mobile phase."""
    return case.method is not None and not case.method.pressure_programmed


def judge(case: RunCase) -> Iterator[Finding]:
    """Look for the softest moment at the column outlet."""
    run = case.run
    soft = run.outlet_compressibility * 1e5
    warm = run.outlet_expansivity
    row = int(soft.argmax())
    by_pressure = judge_limit(
        float(soft[row]), _PER_BAR, 1e5 * outlet_compressibility_band(run, row), "caution"
    )
    if by_pressure is None:
        row = int(warm.argmax())
    if by_pressure is None and float(warm[row]) <= _PER_DEGREE:
        return
    spans = run.windows(np.maximum(soft / _PER_BAR, warm / _PER_DEGREE) - 1.0)
    share = 100.0 * float(run.column_outlet_share[row])
    possible = by_pressure is not None and by_pressure.possible
    edge = ", inside the band of the model" if possible else ""
    pressure = float(run.column_outlet_pressure[row])
    yield case.finding(
        settings_at(case),
        "caution",
        f"1 bar at the regulator moves the density at the column outlet by "
        f"{number(100 * float(soft[row]), 2)} % (limit 1 %{edge}) and 1 K by {number(100 * float(warm[row]), 2)} % "
        f"(limit 3 %), at {show(pressure, 'pressure')} with {share:.0f} % "
        f"{run.plan.modifier_name or 'modifier'}, "
        f"{show(float(run.time[row]), 'time', 'min')} into the run",
        found=Measure(100 * float(soft[row]), "%/bar"),
        limit=Measure(100 * _PER_BAR, "%/bar"),
        band=bar(float(run.boundary_band.above)),
        when=When(spans[0][0], spans[-1][1]),
        possible=possible,
        remedy="raise the outlet pressure or lower the oven temperature",
        candidates=higher_outlet(case, above=pressure) + cooler(case),
        also=(case.at("method.oven_temperature"),),
    )
