"""What gives a pump more to meter: a larger share of the flow, or more flow."""

from __future__ import annotations

import math
from collections.abc import Sequence

from methodlint.judging.case import RunCase
from methodlint.judging.finding import Candidate
from methodlint.rehearsal.plan.set_points import FilledRow

_ROUND = 0.005  # shares are proposed in halves of a per cent
_SMALLER = 0.5


def stream_of(name: str, row: FilledRow) -> float:
    """Part of the flow that the pump has to meter in this row [m3/s].

    Parameters
    ----------
    name
        "modifier" or "CO2".
    row
        A row of the programme.
    """
    share, flow = row.share or 0.0, row.flow or 0.0
    return flow * share if name == "modifier" else flow * (1.0 - share)


def larger_share_helps(name: str, slow: Sequence[FilledRow], accurate: float) -> bool:
    """Tell whether a larger share helps and leaves the smaller stream the smaller one.

    Otherwise the flow is what is wrong: giving the larger stream still more would be another
    separation, and in the end there would be no mixture.

    Parameters
    ----------
    name
        "modifier" or "CO2".
    slow
        Rows in which the pump has too little to meter.
    accurate
        Least flow that it meters [m3/s].
    """
    return all(max(stream_of(name, row), accurate) <= _SMALLER * (row.flow or 0.0) for row in slow)


def flow_that_meters(row: FilledRow, name: str, accurate: float) -> float:
    """Least flow [mL/min], in tenths, at which this pump meters the share of this row."""
    return math.ceil((row.flow or 0.0) * accurate / stream_of(name, row) * 6e8 - 1e-6) / 10.0


def more_for_pump(
    case: RunCase, name: str, slow: Sequence[FilledRow], accurate: float
) -> list[Candidate]:
    """Remedies for a pump that has too little to meter, as `larger_share_helps` has it."""
    found = []
    if larger_share_helps(name, slow, accurate):
        found.append(_larger_share(case, name, slow, accurate))
    places = {row.places["flow"] for row in slow}
    if len(places) == 1:
        row = min(slow, key=lambda row: stream_of(name, row))
        faster = flow_that_meters(row, name, accurate)
        change = case.change(places.pop(), f"{faster:g} mL/min")
        found.append(case.candidate(f"raise the flow to {faster:g} mL/min", change))
    return found


def _larger_share(
    case: RunCase, name: str, slow: Sequence[FilledRow], accurate: float
) -> Candidate:
    changes = {}
    for row in slow:
        needed = math.ceil(accurate / (row.flow or accurate) / _ROUND - 1e-6) * _ROUND
        share = needed if name == "modifier" else 1.0 - needed
        changes[row.places["modifier_share"]] = f"{100.0 * share:.4g} % v/v"
    if len(set(changes.values())) == 1:
        text = f"set the modifier to {next(iter(changes.values()))}"
    else:
        text = "set the modifier to " + ", ".join(changes.values()) + " at the rows named"
    return case.candidate(text, *(case.change(*item) for item in changes.items()))
