"""Judges the plane of two settings along its borders.

The plane is cut into cells. A cell whose corners are in the same state is taken to be in that state
throughout. Where they are in two, the border's crossing of the cell's sides is found by runs, the
border is straight in between or goes round a right angle, and runs on both sides of it show whether
that is so; where it is less simple the cell is cut into four.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from methodlint.window.axis import Axis
from methodlint.window.region import (
    CELLS,
    COARSE,
    Border,
    Cell,
    Layer,
    Piece,
    Place,
    Region,
    Spot,
    within,
)
from methodlint.window.trials import HOLDS, Outcome, State, Trials

__all__ = ["region_of"]

Side = tuple[Spot, Spot]

_FINE = 64
_NEAR = 32
_NEAR_CARE = 128
_NEAR_SHARP = 2
"""How close a crossing is closed in on: where a band is left or entered, where cautions begin, and
where a check that has no band fails, as at a limit of a card."""


@dataclass(frozen=True)
class Cut:
    """A border that crosses two sides of a cell.

    Attributes
    ----------
    pair
        Places on either side of it, on one of the cell's sides.
    start, end
        Where it crosses them.
    halves
        The two polygons that a straight border makes of the cell.
    near
        How far the crossings may be off.
    """

    cell: Cell
    pair: Side
    start: Place
    end: Place
    halves: tuple[tuple[Place, ...], tuple[Place, ...]]
    near: float

    @property
    def corner(self) -> Place | None:
        """The only corner on one side; None where there are two on either."""
        return next((half[1] for half in self.halves if len(half) == 3), None)

    @property
    def vertex(self) -> Place:
        """Where lines along the axes through both crossings meet."""
        corner = self.corner
        assert corner is not None
        along = self.start if self.start[1] == corner[1] else self.end
        up = self.end if along is self.start else self.start
        return along[0], up[1]

    @property
    def within_vertex(self) -> Spot:
        """A place beside that, on the side of the corner."""
        corner, off = self.corner, self.near / 2 + _NEAR_SHARP
        assert corner is not None
        x, y = (
            at + math.copysign(min(off, abs(side - at)), side - at)
            for at, side in zip(self.vertex, corner, strict=True)
        )
        return round(x), round(y)

    @property
    def around_vertex(self) -> list[Spot]:
        """Places beyond either arm of a right angle, at its end; none in a small cell."""
        corner, (i, j, size) = self.corner, self.cell
        if corner is None or size <= _FINE:
            return []
        (in_x, in_y), (x, y) = self.within_vertex, self.vertex
        out_x, out_y = (
            round(at + math.copysign(max(size / 12, self.near), at - side))
            for at, side in zip((x, y), corner, strict=True)
        )
        spots = [(in_x, out_y), (out_x, in_y)]
        return [(a, b) for a, b in spots if i <= a <= i + size and j <= b <= j + size]

    @property
    def beside(self) -> list[Spot]:
        """Places on both sides of the middle of a straight border; none in a small cell."""
        size = self.cell[2]
        if size <= _FINE:
            return []
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        long = math.hypot(dx, dy) or 1.0
        middle, off = _between(self.start, self.end), max(size / 12, self.near)
        spots = [
            (round(middle[0] - side * off * dy / long), round(middle[1] + side * off * dx / long))
            for side in (-1, 1)
        ]
        i, j, _ = self.cell
        return [(x, y) for x, y in spots if i <= x <= i + size and j <= y <= j + size]

    @property
    def probes(self) -> list[Spot]:
        """Where it shows whether the border is what it is taken for."""
        if self.corner is None:
            return self.beside
        return [*self.beside, *self.around_vertex, self.within_vertex]


def region_of(
    trials: Trials,
    x: Axis,
    y: Axis,
    x_span: Place,
    y_span: Place,
) -> Region:
    """Judge the plane of two settings of a method; all others stay as they are."""
    region = Region(x, y, x_span, y_span)
    for layer, seen in ((region.judged, _as_judged), (region.care, _as_cautious)):
        search = _Search(trials, region, layer, seen)
        cells = [(i * COARSE, j * COARSE, COARSE) for i in range(CELLS) for j in range(CELLS)]
        while cells:
            cells = search.settle(cells)
    return region


def _as_judged(outcome: Outcome) -> State:
    """The state, cautions left out: they end no window."""
    return "holds" if outcome.state in HOLDS else outcome.state


def _as_cautious(outcome: Outcome) -> State:
    return "with care" if outcome.cautions else "holds"


_RANK: tuple[State, ...] = ("holds", "with care", "in the band", "fails", "not judged")


class _Search:
    """Judges places of the plane, each once, and cells by their corners."""

    def __init__(
        self, trials: Trials, region: Region, layer: Layer, seen: Callable[[Outcome], State]
    ) -> None:
        self._trials, self._region = trials, region
        self._layer, self._seen = layer, seen
        self._crossings: dict[Side, Side | None] = {}

    def settle(self, cells: list[Cell]) -> list[Cell]:
        """Settle the cells that can be, and give the quarters of those that cannot."""
        self._judge(corner for cell in cells for corner in _corners(cell))
        mixed = [cell for cell in cells if not self._settle_plain(cell)]
        simple = [cell for cell in mixed if self._is_simple(cell)]
        self._cross({side for cell in simple for side in self._crossed(cell)})
        cuts = {cell: cut for cell in simple if (cut := self._cut(cell)) is not None}
        self._judge(spot for cut in cuts.values() for spot in cut.probes)
        left = [cell for cell in mixed if cell not in cuts or not self._settle_cut(cuts[cell])]
        if not left or left[0][2] > _FINE:
            return [quarter for cell in left for quarter in _quarters(cell)]
        for cell in left:
            self._settle_small(cell)
        return []

    def _judge(self, spots: Iterable[Spot]) -> None:
        points = self._region.points
        wanted = [spot for spot in dict.fromkeys(spots) if spot not in points]
        changes = []
        for spot in wanted:
            x, y = self._region.values(spot)
            changes.append((*self._region.x.changes(x), *self._region.y.changes(y)))
        for spot, outcome in zip(wanted, self._trials.judge(changes), strict=True):
            points[spot] = outcome

    def _state(self, spot: Spot) -> State:
        return self._seen(self._region.points[spot])

    def _settle_plain(self, cell: Cell) -> bool:
        states = {self._state(corner) for corner in _corners(cell)}
        if len(states) > 1:
            return False
        self._layer.cells[cell] = [Piece(states.pop(), _corners(cell))]
        return True

    def _crossed(self, cell: Cell) -> list[Side]:
        return [side for side in _sides(cell) if self._state(side[0]) != self._state(side[1])]

    def _is_simple(self, cell: Cell) -> bool:
        states = {self._state(corner) for corner in _corners(cell)}
        return len(states) == 2 and len(self._crossed(cell)) == 2

    def _cross(self, sides: Iterable[Side]) -> None:
        """Close in on where each side is crossed; None where there is a third state between."""
        new = sorted(side for side in sides if side not in self._crossings)
        # A limit of a card is mostly the same all along: what was found once is looked at first.
        first: dict[object, Side] = {}
        for side in new:
            first.setdefault(self._alike(side), side)
        self._close_in({side: side for side in first.values()})
        others = [side for side in new if side not in self._crossings]
        guesses = {side: self._guess(side, first[self._alike(side)]) for side in others}
        self._judge(spot for guess in guesses.values() for spot in guess)
        self._close_in({side: self._narrowed(side, guesses[side]) for side in others})

    def _alike(self, side: Side) -> object:
        states = {self._state(spot) for spot in side}
        if self._near(states) != _NEAR_SHARP:
            return side
        (x0, y0), (x1, y1) = side
        return (x0, x1) if y0 == y1 else (None, y0, y1), frozenset(states)

    def _near(self, states: set[State]) -> int:
        if states <= set(HOLDS):
            return _NEAR_CARE
        return _NEAR if "in the band" in states else _NEAR_SHARP

    def _guess(self, side: Side, known: Side) -> list[Spot]:
        found = self._crossings[known]
        if found is None:
            return []
        along = side[0][1] == side[1][1]
        return [(spot[0], side[0][1]) if along else (side[0][0], spot[1]) for spot in found]

    def _narrowed(self, side: Side, guess: list[Spot]) -> Side:
        one, other = side
        for spot in guess:
            if self._state(spot) == self._state(one):
                one = spot if abs(sum(spot) - sum(side[0])) > abs(sum(one) - sum(side[0])) else one
            elif self._state(spot) == self._state(other):
                nearer = abs(sum(spot) - sum(side[0])) < abs(sum(other) - sum(side[0]))
                other = spot if nearer else other
        return one, other

    def _close_in(self, going: dict[Side, Side]) -> None:
        while going:
            middles = {}
            for side, (one, other) in going.items():
                near = self._near({self._state(one), self._state(other)})
                if max(abs(one[0] - other[0]), abs(one[1] - other[1])) > near:
                    middles[side] = ((one[0] + other[0]) // 2, (one[1] + other[1]) // 2)
                else:
                    self._crossings[side] = (one, other)
            self._judge(middles.values())
            closer: dict[Side, Side] = {}
            for side, middle in middles.items():
                one, other = going[side]
                if self._state(middle) == self._state(one):
                    closer[side] = (middle, other)
                elif self._state(middle) == self._state(other):
                    closer[side] = (one, middle)
                else:
                    self._crossings[side] = None
            going = closer

    def _cut(self, cell: Cell) -> Cut | None:
        """How a border crosses a cell; None where it is not that simple."""
        crossed, round_ = self._crossed(cell), list[Place]()
        cuts: list[tuple[int, Side]] = []
        for corner, side in zip(_corners(cell), _sides(cell), strict=True):
            round_.append(corner)
            if side in crossed:
                pair = self._crossings[side]
                if pair is None:
                    return None
                cuts.append((len(round_), pair))
                round_.append(_between(*pair))
        (first, pair), (second, other) = cuts
        halves = tuple(round_[first : second + 1]), tuple(round_[second:] + round_[: first + 1])
        near = max(math.dist(*pair), math.dist(*other))
        return Cut(cell, pair, round_[first], round_[second], halves, near)

    def _settle_cut(self, cut: Cut) -> bool:
        states = [self._state(_spot(half[1])) for half in cut.halves]
        if cut.corner is not None:
            at_vertex = self._state(cut.within_vertex)
            inside = self._state(_spot(cut.corner))
            if at_vertex == inside:
                if any(self._state(spot) == inside for spot in cut.around_vertex):
                    return False
                self._settle_square(cut, cut.corner)
                return True
            if at_vertex not in states:
                return False
        for spot in cut.beside:
            half = next((n for n, half in enumerate(cut.halves) if within(spot, half)), 0)
            if self._state(spot) != states[half]:
                return False
        self._layer.cells[cut.cell] = [
            Piece(state, half) for state, half in zip(states, cut.halves, strict=True)
        ]
        self._layer.borders.append(self._border(cut.pair, cut.start, cut.end))
        return True

    def _settle_square(self, cut: Cut, corner: Place) -> None:
        """Two limits meet at a right angle there, as those of two cards do."""
        i, j, size = cut.cell
        x, y = cut.vertex
        far_x, far_y = 2 * i + size - corner[0], 2 * j + size - corner[1]
        inside = self._state(_spot(corner))
        (other,) = {self._state(spot) for spot in cut.pair} - {inside}
        self._layer.cells[cut.cell] = [
            Piece(inside, _box(corner, (x, y))),
            Piece(other, _box((corner[0], y), (x, far_y))),
            Piece(other, _box((x, corner[1]), (far_x, far_y))),
        ]
        for one, end in ((cut.start, cut.vertex), (cut.vertex, cut.end)):
            self._layer.borders.append(self._border(cut.pair, one, end))

    def _border(self, pair: Side, start: Place, end: Place) -> Border:
        inner, outer = sorted(pair, key=lambda spot: _RANK.index(self._state(spot)))
        found = self._region.points[outer]
        rules = found.cautions if self._state(outer) == "with care" else found.rules
        return Border(self._state(inner), self._state(outer), rules[0] if rules else "", start, end)

    def _settle_small(self, cell: Cell) -> None:
        """Give each corner its quarter of a cell that is too small to be cut again."""
        i, j, size = cell
        half = size // 2
        centre = (i + half, j + half)
        corners = _corners(cell)
        self._layer.cells[cell] = [
            Piece(self._state(corner), _corners(quarter))
            for corner, quarter in zip(corners, _quarters(cell), strict=True)
        ]
        for one, other in zip(corners, (*corners[1:], corners[0]), strict=True):
            if self._state(one) != self._state(other):
                middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
                self._layer.borders.append(self._border((one, other), middle, centre))


def _between(one: Place, other: Place) -> Place:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _spot(place: Place) -> Spot:
    return int(place[0]), int(place[1])


def _box(one: Place, other: Place) -> tuple[Place, ...]:
    (x0, x1), (y0, y1) = sorted((one[0], other[0])), sorted((one[1], other[1]))
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def _corners(cell: Cell) -> tuple[Spot, Spot, Spot, Spot]:
    """Corners in turn, to the left."""
    i, j, size = cell
    return (i, j), (i + size, j), (i + size, j + size), (i, j + size)


def _sides(cell: Cell) -> Iterator[Side]:
    """Sides in turn, each written in the same way by both of its cells."""
    corners = _corners(cell)
    for one, other in zip(corners, (*corners[1:], corners[0]), strict=True):
        yield (one, other) if one < other else (other, one)


def _quarters(cell: Cell) -> list[Cell]:
    """Quarters in the order of the corners that they hold."""
    i, j, size = cell
    half = size // 2
    return [(i, j, half), (i + half, j, half), (i + half, j + half, half), (i, j + half, half)]
