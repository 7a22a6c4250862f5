"""How far single settings may move, down and up, before a check no longer holds."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from methodlint.window.axis import Axis
from methodlint.window.trials import HOLDS, Outcome, Reason, State, Trials

__all__ = ["Edge", "edges_of"]

Direction = Literal["down", "up"]

_LADDER = 14
_ROUND = 4


@dataclass(frozen=True, slots=True)
class Edge:
    """The end of the window of one setting in one direction.

    Attributes
    ----------
    axis, direction
        The setting, and where it moves.
    last
        The last value at which every check holds; None if none was found in this direction.
    from_
        Where the method as it is does not hold: the first value at which every check does.
    beyond
        The first value, one step further, at which one does not; None at the end of what is tried.
    state, reasons
        What becomes of the method there, and why.
    certain
        The first value beyond the whole band: at which a check fails for certain; None if none.
    certain_reasons
        Why it fails there.
    care
        The first value at which a caution arises that the method as it is does not have.
    care_rules
        Rules that raise it.
    """

    axis: Axis
    direction: Direction
    last: float | None
    from_: float | None = None
    beyond: float | None = None
    state: State = "holds"
    reasons: tuple[Reason, ...] = ()
    certain: float | None = None
    certain_reasons: tuple[Reason, ...] = ()
    care: float | None = None
    care_rules: tuple[str, ...] = ()

    @property
    def bands(self) -> float | None:
        """Distance of the method from the limit, in bands of it; None where it has no band.

        A band is the half width of an uncertainty. A fault is certain where the whole of it is
        beyond the limit, a stop where the figure itself is.
        """
        if self.state != "in the band" or self.certain is None or self.beyond is None:
            return None
        width = abs(self.certain - self.beyond)
        if width == 0.0 or self.reasons[0].rule != self.certain_reasons[0].rule:
            return None
        stop = self.certain_reasons[0].grade == "stop"
        half = width if stop else width / 2
        return (abs(self.certain - self.axis.value) - (0.0 if stop else half)) / half


@dataclass
class _Walk:
    """The way from the method's own value outwards, judged where that is needed."""

    axis: Axis
    direction: Direction
    known: dict[float, Outcome]
    ladder: list[float] = field(default_factory=list)

    def __post_init__(self) -> None:
        end = self.axis.low if self.direction == "down" else self.axis.high
        reach = end - self.axis.value
        # Steps grow with the distance: what is near matters most.
        steps = [self.axis.value + reach * (n / _LADDER) ** 1.7 for n in range(1, _LADDER + 1)]
        values = dict.fromkeys(self.axis.rounded(value) for value in steps)
        self.ladder = [value for value in values if value != self.axis.value]

    @property
    def walked(self) -> list[float]:
        """Values that were judged, from the method's own outwards."""
        return sorted(self.known, reverse=self.direction == "down")

    def next(self) -> list[float]:
        """Further values of the ladder to judge; none where a check has failed for certain."""
        if _left(self) and any(self.known[value].state in _ENDS for value in _after(self)):
            return []
        return [value for value in self.ladder if value not in self.known][:_ROUND]

    def halves(self) -> list[float]:
        """Values half way between neighbours where what is looked for changes."""
        wanted = []
        for crossed in _CROSSINGS:
            pair = _crossing(self, crossed)
            if pair is not None:
                middle = self.axis.rounded((pair[0] + pair[1]) / 2)
                if middle not in pair and middle not in self.known:
                    wanted.append(middle)
        return list(dict.fromkeys(wanted))


_ENDS: tuple[State, ...] = ("fails", "not judged")


def _holds(outcome: Outcome) -> bool:
    return outcome.state in HOLDS


def _not_certain(outcome: Outcome) -> bool:
    return outcome.state not in _ENDS


def _without_care(outcome: Outcome) -> bool:
    return outcome.state == "holds"


_CROSSINGS: tuple[Callable[[Outcome], bool], ...] = (_holds, _not_certain, _without_care)


def _first_holding(walk: _Walk) -> int | None:
    return next((n for n, v in enumerate(walk.walked) if _holds(walk.known[v])), None)


def _left(walk: _Walk) -> bool:
    """Whether a value was met at which every check holds."""
    return _first_holding(walk) is not None


def _after(walk: _Walk) -> list[float]:
    """Values from the first one on at which every check holds."""
    first = _first_holding(walk)
    return [] if first is None else walk.walked[first:]


def _crossing(walk: _Walk, inside: Callable[[Outcome], bool]) -> tuple[float, float] | None:
    """Neighbours of which the inner one is inside and the outer one is not, the nearest pair."""
    values = _after(walk)
    for one, other in itertools.pairwise(values):
        if inside(walk.known[one]) and not inside(walk.known[other]):
            return one, other
    return None


def edges_of(trials: Trials, axes: Iterable[Axis]) -> list[Edge]:
    """Find the edges of every setting, both ways; each is confirmed by a run on either side."""
    walks = [
        _Walk(axis, direction, {axis.value: trials.own})
        for axis in axes
        for direction in _DIRECTIONS
    ]
    for further in (_Walk.next, _entrance, _Walk.halves):
        while wanted := [(walk, value) for walk in walks for value in further(walk)]:
            outcomes = trials.judge([walk.axis.changes(value) for walk, value in wanted])
            for (walk, value), outcome in zip(wanted, outcomes, strict=True):
                walk.known[value] = outcome
    return [_edge(walk) for walk in walks]


_DIRECTIONS: tuple[Direction, Direction] = ("down", "up")


def _entrance(walk: _Walk) -> list[float]:
    """Half way to the first value that holds, where the method as it is does not."""
    first = _first_holding(walk)
    if not first:
        return []
    values = walk.walked
    middle = walk.axis.rounded((values[first - 1] + values[first]) / 2)
    return [] if middle in walk.known else [middle]


def _edge(walk: _Walk) -> Edge:
    first, values = _first_holding(walk), walk.walked
    if first is None:
        own = walk.known[walk.axis.value]
        return Edge(walk.axis, walk.direction, None, state=own.state, reasons=own.reasons)
    start = values[first] if first else None
    care = _crossing(walk, _without_care) if first == 0 else None
    cautious = walk.known[care[1]] if care is not None else None
    if cautious is not None and cautious.state != "with care":
        care = cautious = None
    of_care = (care[1], cautious.rules) if care is not None and cautious is not None else (None, ())
    pair = _crossing(walk, _holds)
    if pair is None:
        return Edge(walk.axis, walk.direction, values[-1], start, care=of_care[0],
                    care_rules=of_care[1])  # fmt: skip
    outside = walk.known[pair[1]]
    sure = _crossing(walk, _not_certain)
    fails = walk.known[sure[1]] if sure is not None else None
    certain: tuple[float | None, Sequence[Reason]] = (None, ())
    if fails is not None and fails.state == "fails" and sure is not None:
        certain = sure[1], fails.reasons
    return Edge(
        walk.axis,
        walk.direction,
        pair[0],
        start,
        pair[1],
        outside.state,
        outside.reasons,
        certain[0],
        tuple(certain[1]),
        *of_care,
    )
