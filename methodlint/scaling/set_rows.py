"""The rows of a programme with every value filled in, and where each comes from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from methodlint.documents.kinds.method import Method
from methodlint.rehearsal.plan.programme import Programme
from methodlint.rehearsal.plan.settings_by_mass import by_volume

__all__ = ["SetRow", "as_constant", "changes_composition", "initial_hold", "set_rows"]


@dataclass(frozen=True, slots=True)
class SetRow:
    """What is set from one moment on.

    Attributes
    ----------
    index
        Index in the method's `programme`; None for the state before its first row.
    time
        [s].
    share
        Modifier share v/v [-].
    flow
        [m3/s].
    outlet_pressure
        [Pa].
    oven_temperature
        [K].
    step
        Reached by a jump.
    """

    index: int | None
    time: float
    share: float
    flow: float
    outlet_pressure: float
    oven_temperature: float
    step: bool = False

    @property
    def state(self) -> tuple[float, float, float, float]:
        """Everything that a settled pressure depends on."""
        return self.share, self.flow, self.outlet_pressure, self.oven_temperature


def set_rows(method: Method) -> tuple[SetRow, ...]:
    """Rows of a method's programme, one for an isocratic method; gaps filled from the row before.

    Returns
    -------
    tuple of SetRow
        Empty if a figure that every row needs is nowhere given, or the flow is one of mass.
    """
    phase = method.mobile_phase
    share = phase.modifier_share.si if phase and phase.modifier_share else None
    if share is None and phase is not None and phase.modifier is None:
        share = 0.0
    flow = method.flow.si if method.flow and by_volume(method.flow) else None
    outlet = method.outlet_pressure.si if method.outlet_pressure else None
    oven = method.oven_temperature.si if method.oven_temperature else None
    rows: list[SetRow] = []
    programme = method.programme
    if programme and programme[0].time.si > 0.0 and programme[0].modifier_share and share is None:
        share = programme[0].modifier_share.si
    begins = None if programme and programme[0].time.si <= 0.0 else 0.0
    if begins is not None:
        if None in (share, flow, outlet, oven):
            return ()
        assert share is not None
        assert flow is not None
        assert outlet is not None
        assert oven is not None
        rows.append(SetRow(None, 0.0, share, flow, outlet, oven))
    for index, row in enumerate(programme):
        share = row.modifier_share.si if row.modifier_share else share
        if row.flow is not None and not by_volume(row.flow):
            return ()
        flow = row.flow.si if row.flow else flow
        outlet = row.outlet_pressure.si if row.outlet_pressure else outlet
        oven = row.temperature.si if row.temperature else oven
        if share is None or flow is None or outlet is None or oven is None:
            return ()
        rows.append(SetRow(index, row.time.si, share, flow, outlet, oven, row.step))
    return tuple(rows)


def changes_composition(rows: Sequence[SetRow]) -> bool:
    """Whether the modifier share changes: a gradient, in the words of the trade."""
    return bool(rows) and max(r.share for r in rows) - min(r.share for r in rows) > 1e-9


def initial_hold(rows: Sequence[SetRow]) -> float:
    """Time before the composition first begins to change [s]; 0 without a gradient."""
    for before, row in pairwise(rows):
        if abs(row.share - before.share) > 1e-9:
            return row.time if row.step else before.time
    return 0.0


def as_constant(row: SetRow) -> Programme:
    """The state of one row held for ever: the settled column."""
    one = np.ones(1)
    return Programme(
        time=0.0 * one,
        share=row.share * one,
        flow=row.flow * one,
        outlet_pressure=row.outlet_pressure * one,
        oven_temperature=row.oven_temperature * one,
        run_length=0.0,
        settling_time=0.0,
        last_row=0.0,
    )


def between(first: SetRow, second: SetRow, part: float) -> SetRow:
    """The state part of the way along a ramp."""
    mixed = (a + part * (b - a) for a, b in zip(first.state, second.state, strict=True))
    share, flow, outlet, oven = mixed
    time = first.time + part * (second.time - first.time)
    return replace(
        second, time=time, share=share, flow=flow, outlet_pressure=outlet, oven_temperature=oven
    )
