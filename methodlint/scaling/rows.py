"""What a transfer asks of the rows of a programme: gradient or not, first hold, states on the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from methodlint.rehearsal.plan.programme import Programme, SetPoint

__all__ = ["as_constant", "between", "changes_composition", "initial_hold"]


def changes_composition(rows: Sequence[SetPoint]) -> bool:
    """Whether the modifier share changes: a gradient, in the words of the trade."""
    return bool(rows) and max(r.share for r in rows) - min(r.share for r in rows) > 1e-9


def initial_hold(rows: Sequence[SetPoint]) -> float:
    """Time before the composition first begins to change [s]; 0 without a gradient."""
    for before, row in pairwise(rows):
        if abs(row.share - before.share) > 1e-9:
            return row.time if row.step else before.time
    return 0.0


def as_constant(row: SetPoint) -> Programme:
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


def between(first: SetPoint, second: SetPoint, part: float) -> SetPoint:
    """The state part of the way along a ramp."""
    mixed = (a + part * (b - a) for a, b in zip(first.state, second.state, strict=True))
    share, flow, outlet, oven = mixed
    time = first.time + part * (second.time - first.time)
    return replace(
        second, time=time, share=share, flow=flow, outlet_pressure=outlet, oven_temperature=oven
    )
