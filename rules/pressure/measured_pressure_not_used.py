"""A measured pressure agrees with the flow train that it was read on.

Reason
    One pressure that was read on the instrument gives the column's permeability better than any
    formula, and narrows the band of every pressure from 20 to between 5 and 15 %. A reading that
    leaves no drop for the column, or that was taken with a liquid without a model, cannot be
    used: then something in it, or in the flow train, is written down wrongly.

Unsound
    kind: method
    programme: null
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 20 % v/v}
    measured_pressures:  # <- here
      - {pump_pressure: 145 bar, modifier_share: 20 % v/v}

Sound
    kind: method
    programme: null
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 20 % v/v}
    measured_pressures:
      - {pump_pressure: 260 bar, modifier_share: 20 % v/v}

Remedy
    Look at the reading and at the outlet pressure, flow and composition it belongs to; give
    absolute pressures, or write '(g)'.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, RunCase

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)


def applies(case: RunCase) -> bool:
    """A pressure was measured, on the method or on its column's card."""
    on_method = case.method is not None and bool(case.method.measured_pressures)
    return on_method or (case.column is not None and case.column.measured_drop is not None)


def judge(case: RunCase) -> Iterator[Finding]:
    """Report what the plan could not calibrate the column with."""
    plan = case.run.plan
    if not plan.not_calibrated:
        return
    read = bool(plan.method_model.measured_pressures)
    band = (
        "bands are those of the other readings"
        if plan.calibrations
        else "bands stay those of a column without one"
    )
    yield case.finding(
        "method.measured_pressures" if read else "column.measured_drop",
        "caution",
        f"a measured pressure is not used: {plan.not_calibrated}; {band}",
        remedy="correct the reading, or what it belongs to",
    )
