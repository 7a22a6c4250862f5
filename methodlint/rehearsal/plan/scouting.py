"""A scouting matrix: which cells may be run at all, and in which order.

Cells are columns x modifiers x temperatures. The coldest temperature comes first, so that an oven
only ever heats up and a phase meets its hottest hour last. Within one temperature each step keeps
either the column or the modifier: what one cell leaves in the lines reaches the next column, which
has to bear it. Where no such step leads to a cell that is left, the way goes through a cell already
run, which is then equilibrated once more without an injection.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.column import Column
from methodlint.rehearsal.plan.phase_tolerance import tolerance
from methodlint.rehearsal.plan.run_plan import components_of

Spot = tuple[int, int]
"""Numbers of a column and of a modifier."""


@dataclass(frozen=True, slots=True, order=True)
class MatrixCell:
    """Numbers of temperature, modifier and column; each from 0 as written."""

    temperature: int
    modifier: int
    column: int


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A cell that is not run.

    Attributes
    ----------
    cell
        Its numbers.
    reason
        Why, in words.
    by_liquid
        Whether the liquid is why; the temperature is otherwise.
    """

    cell: MatrixCell
    reason: str
    by_liquid: bool


@dataclass(frozen=True, slots=True)
class Visit:
    """A cell in its turn; one that only leads on to the next is not injected into."""

    cell: MatrixCell
    injects: bool


def why_not(
    card: Column, name: str, modifier: Liquid | None, temperature: float | None
) -> tuple[str, bool] | None:
    """Say why a column must not be run with a modifier at a temperature [K].

    Returns
    -------
    tuple of str and bool, or None
        The reason and whether the liquid is it; None if nothing stands against it.
    """
    for liquid, _ in components_of(modifier) if modifier is not None else ():
        said = tolerance(card, liquid)
        if said.verdict == "forbidden":
            return f"{liquid} harms {name} ({card.phase}): {said.authority} forbids it", True
    limit = card.temperature_limit
    if limit is not None and temperature is not None and temperature > limit.si + 1e-6:
        hot, bears = temperature - 273.15, limit.si - 273.15
        return f"{name} is rated to {bears:g} °C, the cell is at {hot:g} °C", False
    return None


def in_order(
    allowed: Sequence[MatrixCell], temperatures: Sequence[float]
) -> tuple[list[Visit], list[MatrixCell]]:
    """Put cells in an order in which no column meets a liquid that it is never run with.

    Parameters
    ----------
    allowed
        Cells that may be run.
    temperatures
        Of each number of a temperature [K].

    Returns
    -------
    tuple of list of Visit and list of MatrixCell
        The order, and the cells that can only be reached by carrying a liquid onto a column that
        it is never run with: a flush has to come before each of them.
    """
    visits: list[Visit] = []
    apart: list[MatrixCell] = []
    now: Spot | None = None
    for number in sorted({cell.temperature for cell in allowed}, key=lambda n: temperatures[n]):
        left = {(c.column, c.modifier): c for c in sorted(allowed) if c.temperature == number}
        usable = dict(left)
        while left:
            way = _way(now, left, usable)
            if way is None:
                first = next(iter(left))
                if now is not None:
                    apart.append(left[first])
                way = [first]
            for spot in way[:-1]:
                between = MatrixCell(number, spot[1], spot[0])
                visits.append(Visit(between, injects=False))
            visits.append(Visit(left.pop(way[-1]), injects=True))
            now = way[-1]
    return visits, apart


def _way(
    now: Spot | None, left: Mapping[Spot, MatrixCell], usable: Mapping[Spot, object]
) -> list[Spot] | None:
    """Shortest way to a cell that is left, each step along a row or a column of the matrix.

    A change of the column alone is cheaper than one of the modifier, which has to be flushed.
    """
    if now is None:
        return [next(iter(left))]
    if now in left:
        return [now]
    queue: deque[list[Spot]] = deque([[now]])
    met = {now}
    while queue:
        way = queue.popleft()
        column, modifier = way[-1]
        steps = sorted(
            spot
            for spot in usable
            if spot not in met and (spot[0] == column or spot[1] == modifier)
        )
        steps.sort(key=lambda spot: spot[1] != modifier)
        for spot in steps:
            if spot in left:
                return [*way[1:], spot]
        for spot in steps:
            met.add(spot)
            queue.append([*way, spot])
    return None
