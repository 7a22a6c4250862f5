"""Where in the plane of two settings every check holds.

The plane is cut into cells. A cell whose corners are in the same state is taken to be in that state
throughout. Where they are in two, the border's crossing of the cell's sides is found by runs, and
the border is straight in between; where it is less simple the cell is cut into four. So what is
judged lies along the borders, and every border is a run on either side of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field

from methodlint.window.axis import Axis
from methodlint.window.trials import HOLDS, Outcome, State, Trials

__all__ = ["SIDE", "Border", "Piece", "Region", "region_of"]

Spot = tuple[int, int]
Cell = tuple[int, int, int]
Side = tuple[Spot, Spot]

_CELLS = 12
_COARSE = 512
_FINE = 64
SIDE = _CELLS * _COARSE
"""Length of each side of the plane, in the units that places in it are counted in."""

_NEAR = 32
_NEAR_CARE = 128
_NEAR_SHARP = 2
"""How close a crossing is closed in on: where a band is left or entered, where cautions begin, and
where a check that has no band fails, as at a limit of a card."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A polygon in one state; corners in units of the plane."""

    state: State
    corners: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Border:
    """A stretch of the border between two states.

    Attributes
    ----------
    inner, outer
        The states, the better one first.
    rule
        The rule that puts the outer side into its state.
    start, end
        Ends in units of the plane.
    """

    inner: State
    outer: State
    rule: str
    start: tuple[float, float]
    end: tuple[float, float]


@dataclass
class Layer:
    """The plane in polygons, and what divides them.

    Attributes
    ----------
    cells
        Pieces of each cell, by its lower left corner and size.
    """

    cells: dict[Cell, list[Piece]] = field(default_factory=dict)
    borders: list[Border] = field(default_factory=list)

    @property
    def pieces(self) -> list[Piece]:
        """All pieces."""
        return [piece for pieces in self.cells.values() for piece in pieces]

    def state(self, spot: tuple[float, float]) -> State:
        """State at a place."""
        size = _COARSE
        while True:
            i, j = (min(int(c // size) * size, SIDE - size) for c in spot)
            if (i, j, size) in self.cells:
                pieces = self.cells[i, j, size]
                found = (piece.state for piece in pieces if _within(spot, piece.corners))
                return next(found, pieces[0].state)
            size //= 2


@dataclass
class Region:
    """The plane of two settings.

    Attributes
    ----------
    x, y
        The settings along and up.
    x_span, y_span
        First and last value of each.
    points
        What was judged, by its place in the plane.
    judged, care
        The plane in polygons: of all states but `with care`, and of where cautions arise.
    """

    x: Axis
    y: Axis
    x_span: tuple[float, float]
    y_span: tuple[float, float]
    points: dict[Spot, Outcome] = field(default_factory=dict)
    judged: Layer = field(default_factory=lambda: Layer())
    care: Layer = field(default_factory=lambda: Layer())

    def values(self, spot: tuple[float, float]) -> tuple[float, float]:
        """Values of both settings at a place in the plane."""
        (x_low, x_high), (y_low, y_high) = self.x_span, self.y_span
        return (
            x_low + (x_high - x_low) * spot[0] / SIDE,
            y_low + (y_high - y_low) * spot[1] / SIDE,
        )

    def place(self, x: float, y: float) -> tuple[float, float]:
        """Place in the plane of two values."""
        (x_low, x_high), (y_low, y_high) = self.x_span, self.y_span
        return SIDE * (x - x_low) / (x_high - x_low), SIDE * (y - y_low) / (y_high - y_low)

    def state(self, x: float, y: float) -> State:
        """State at two values within the plane."""
        spot = self.place(x, y)
        found = self.judged.state(spot)
        return self.care.state(spot) if found == "holds" else found


def _within(spot: tuple[float, float], corners: tuple[tuple[float, float], ...]) -> bool:
    """Whether a place lies in a convex polygon whose corners go round to the left."""
    return all(
        (x1 - x0) * (spot[1] - y0) - (y1 - y0) * (spot[0] - x0) >= -1e-9
        for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True)
    )


def region_of(
    trials: Trials,
    x: Axis,
    y: Axis,
    x_span: tuple[float, float],
    y_span: tuple[float, float],
) -> Region:
    """Judge the plane of two settings of a method; all others stay as they are."""
    region = Region(x, y, x_span, y_span)
    for layer, seen in ((region.judged, _as_judged), (region.care, _as_cautious)):
        search = _Search(trials, region, layer, seen)
        cells = [(i * _COARSE, j * _COARSE, _COARSE) for i in range(_CELLS) for j in range(_CELLS)]
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
        left = []
        for cell in mixed:
            if not (cell in simple and self._settle_simple(cell)):
                left.append(cell)
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

    def _settle_simple(self, cell: Cell) -> bool:
        cuts: list[tuple[tuple[float, float], Side]] = []
        round_: list[tuple[tuple[float, float], State | None]] = []
        crossed = self._crossed(cell)
        for corner, side in zip(_corners(cell), _sides(cell), strict=True):
            round_.append((corner, self._state(corner)))
            if side in crossed:
                pair = self._crossings[side]
                if pair is None:
                    return False
                cut = ((pair[0][0] + pair[1][0]) / 2, (pair[0][1] + pair[1][1]) / 2)
                cuts.append((cut, pair))
                round_.append((cut, None))
        first, second = (n for n, (_, state) in enumerate(round_) if state is None)
        halves = (round_[first : second + 1], round_[second:] + round_[: first + 1])
        (start, pair), (end, _) = cuts
        for half, other in (halves, halves[::-1]):
            sharp = self._near({self._state(spot) for spot in pair}) == _NEAR_SHARP
            if sharp and len(half) == 3 and self._is_square(half[1][0], start, end):
                self._settle_square(cell, half[1], other[1][1], pair, start, end)
                return True
        pieces = [
            Piece(state, tuple(spot for spot, _ in half))
            for half in halves
            for state in [half[1][1]]
            if state is not None
        ]
        self._layer.cells[cell] = pieces
        self._layer.borders.append(self._border(pair, start, end))
        return True

    def _is_square(
        self, corner: tuple[float, float], start: tuple[float, float], end: tuple[float, float]
    ) -> bool:
        """Whether two limits meet at a right angle there, as those of two cards do."""
        vertex = _vertex(corner, start, end)
        spot = tuple(
            round(at + (_NEAR_SHARP if side > at else -_NEAR_SHARP))
            for at, side in zip(vertex, corner, strict=True)
        )
        inside = (int(corner[0]), int(corner[1]))
        self._judge([(spot[0], spot[1])])
        return self._state((spot[0], spot[1])) == self._state(inside)

    def _settle_square(
        self,
        cell: Cell,
        inside: tuple[tuple[float, float], State | None],
        other: State | None,
        pair: Side,
        start: tuple[float, float],
        end: tuple[float, float],
    ) -> None:
        corner, state = inside
        assert state is not None
        assert other is not None
        i, j, size = cell
        x, y = _vertex(corner, start, end)
        far_x, far_y = 2 * i + size - corner[0], 2 * j + size - corner[1]
        self._layer.cells[cell] = [
            Piece(state, _box(corner, (x, y))),
            Piece(other, _box((corner[0], y), (x, far_y))),
            Piece(other, _box((x, corner[1]), (far_x, far_y))),
        ]
        self._layer.borders += [self._border(pair, start, (x, y)), self._border(pair, (x, y), end)]

    def _border(self, pair: Side, start: tuple[float, float], end: tuple[float, float]) -> Border:
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


def _vertex(
    corner: tuple[float, float], start: tuple[float, float], end: tuple[float, float]
) -> tuple[float, float]:
    """Where lines along the axes through two places on the sides of a corner meet."""
    along = start if start[1] == corner[1] else end
    up = end if along is start else start
    return along[0], up[1]


def _box(one: tuple[float, float], other: tuple[float, float]) -> tuple[tuple[float, float], ...]:
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
