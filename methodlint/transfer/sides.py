"""Both sides of a transfer: documents, geometry, plans and the source's settled states."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.lab import Lab, Policy
from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.rehearsal.plan.programme import SetPoint
from methodlint.rehearsal.plan.run_plan import RunPlan, plan_run
from methodlint.rehearsal.plan.set_points import complete_rows
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse
from methodlint.scaling.comparison import bed_of, measured_states
from methodlint.scaling.geometry import Bed
from methodlint.scaling.headroom import Load, loads_of
from methodlint.scaling.metering import metering_differs
from methodlint.scaling.settled import (
    Settled,
    calibrated,
    flow_resistance_of,
    settled_states,
    with_flow_resistance,
)

__all__ = ["CannotTransfer", "Side", "Sides", "make_sides"]


class CannotTransfer(ValueError):
    """The source cannot be computed: a figure is missing or no model covers it."""


@dataclass(frozen=True)
class Side:
    """A method's columns and instrument on one side.

    Attributes
    ----------
    columns
        Columns in flow order, the analytical one last.
    plan
        The method's plan with this side's hardware; on the target still with the source's rows.
    """

    columns: tuple[Loaded[Column], ...]
    instrument: Loaded[Instrument]
    plan: RunPlan

    @property
    def column(self) -> Column:
        return self.columns[-1].model

    @property
    def card(self) -> Instrument:
        return self.instrument.model

    @cached_property
    def bed(self) -> Bed:
        """Geometry of the analytical column."""
        return bed_of(self.plan)

    @cached_property
    def dwell_volume(self) -> float:
        """From the mixing point to the first packed bed [m3]."""
        assert self.plan.train is not None
        return float(self.plan.train.volume_before(self.plan.train.columns[0]))

    @property
    def head_temperature(self) -> float:
        return self.plan.head_temperature


@dataclass(frozen=True)
class Sides:
    """Source and target of one transfer.

    Attributes
    ----------
    method
        The source method.
    rows
        Its programme with every value filled in.
    corners
        Rows with different settled states; `corner_of` gives the corner of each row.
    states
        Settled states of the source, one per corner.
    run
        The whole source run.
    calibration
        Flow resistance from measured pressures [-]; None if none was measured.
    """

    method: Loaded[Method]
    lab: Loaded[Lab] | None
    source: Side
    target: Side
    rows: tuple[SetPoint, ...]
    corners: tuple[SetPoint, ...]
    corner_of: tuple[int, ...]
    states: tuple[Settled, ...]
    run: Rehearsal
    calibration: float | None = None
    calibration_serves_target: bool = False
    remarks: tuple[str, ...] = field(default=())

    @property
    def typed(self) -> Method:
        return self.method.model

    @property
    def policy(self) -> Policy:
        return (self.lab.model.policy if self.lab else None) or Policy()

    @cached_property
    def loads(self) -> list[Load]:
        """Worst moments of the source's own parts."""
        return loads_of(self.run)

    @property
    def metering_differs(self) -> bool:
        """Whether the pumps turn the same setting into different masses by design."""
        return metering_differs(self.source.plan, self.target.plan)

    @property
    def same_column(self) -> bool:
        return [c.path for c in self.source.columns] == [c.path for c in self.target.columns]


def make_sides(
    method: Loaded[Method],
    lab: Loaded[Lab] | None,
    source: tuple[tuple[Loaded, ...], Loaded],
    target: tuple[tuple[Loaded, ...], Loaded],
) -> Sides:
    """Plan both sides and march the source.

    Raises
    ------
    CannotTransfer
        If a figure that either side needs is missing or unusable.
    """
    typed = method.model
    plan = plan_run(method, *source)
    other = plan_run(method, *target)
    for words, one in (("source", plan), ("target", other)):
        if one.missing:
            first = one.missing[0]
            lacking = ", ".join(dict.fromkeys(item.where for item in one.missing))
            where = f" in {first.document.path}" if first.document else ""
            reason = f" ({first.reason})" if first.reason else ""
            raise CannotTransfer(f"the {words} cannot be computed without {lacking}{where}{reason}")
    rows = complete_rows(typed)
    if not rows:
        raise CannotTransfer("the method gives no complete programme of share, flow and pressure")
    if min(row.flow for row in rows) <= 0.0:
        raise CannotTransfer("a row of the programme has no flow: nothing there can be scaled")
    resistance, remarks = None, []
    if typed.measured_pressures:
        try:
            plan = calibrated(plan, measured_states(typed, rows[0]))
            resistance = flow_resistance_of(plan)
        except ValueError as error:
            remarks.append(f"the measured pressure was not used: {error}")
    serves = resistance is not None and source[0][-1].path == target[0][-1].path
    if serves and resistance is not None:
        other = with_flow_resistance(other, resistance)
    corners: list[SetPoint] = []
    corner_of = []
    for row in rows:
        known = [i for i, corner in enumerate(corners) if corner.state == row.state]
        if not known:
            corners.append(row)
        corner_of.append(known[0] if known else len(corners) - 1)
    states = settled_states([(plan, corner) for corner in corners])
    run = rehearse(plan)
    if run.missing:
        raise CannotTransfer(f"the source cannot be rehearsed: {run.missing[0].reason}")
    return Sides(
        method=method,
        lab=lab,
        source=Side(source[0], source[1], plan),
        target=Side(target[0], target[1], other),
        rows=rows,
        corners=tuple(corners),
        corner_of=tuple(corner_of),
        states=tuple(states),
        run=run,
        calibration=resistance,
        calibration_serves_target=serves,
        remarks=tuple(remarks),
    )
