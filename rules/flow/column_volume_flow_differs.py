"""The volume flow inside the column is known where it differs from the flow that is set.

Reason
    The pumps meter cold, dense CO2; in a warm column the same mass takes more room. Hold-up
    time, linear velocity and peak volumes follow the flow inside the column. It is a figure to
    use, not a mistake, and nothing to correct in the method.

Unsound
    kind: method
    outlet_pressure: 110 bar  # <- here
    flow: 1.5 mL/min

Sound
    kind: method
    oven_temperature: 25 degC
    outlet_pressure: 150 bar
    flow: 1.5 mL/min

Remedy
    Nothing. Use the figure for hold-up time and velocity; leave the set flow as it is.

Source
    Conservation of mass; density of the mobile phase from the rehearsal. Threshold of 15 %:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import hold_up_time_at
from methodlint.judging.ask.rule import Finding, RunCase, ml_per_min, show

SUBJECT = "run"
CLASSES = ("note",)
NEEDS = ("run",)

_DIFFERENCE = 0.15


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare flow at the column outlet and flow as set, with the starting mobile phase."""
    run = case.run
    bed = run.slices_of(run.plan.analytical_column)
    set_flow = float(run.set_flow[0])
    mass = float(run.co2_mass_flow[0] + run.modifier_mass_flow[0])
    if set_flow <= 0.0 or float(run.outlet_margin[0]) < 0.0:
        return  # with two phases there is no such figure
    flow = mass / float(run.density[0, bed.stop - 1])
    difference = flow / set_flow - 1.0
    hold_up = hold_up_time_at(run, 0.0)
    if abs(difference) <= _DIFFERENCE or hold_up is None:
        return
    start = (float(of[0]) for of in (*run.outlet_states, run.outlet_compressibility))
    off = float(run.fluid.density_band(*start))
    yield case.finding(
        "method.outlet_pressure",
        "note",
        f"{show(flow, 'volume flow')} leave the column where {show(set_flow, 'volume flow')} are "
        f"set at the pumps ({100.0 * difference:+.0f} %): the hold-up time is "
        f"{show(hold_up, 'time', 'min')}, not "
        f"{show(run.hold_up_volume / set_flow, 'time', 'min')}",
        found=ml_per_min(flow),
        limit=ml_per_min(set_flow * (1.0 + _DIFFERENCE)),
        band=ml_per_min(flow * off),
        remedy="leave the flow as it is and use this value",
    )
