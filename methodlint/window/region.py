"""The plane of two settings of a method: where every check holds, and what ends that region."""

from __future__ import annotations

from dataclasses import dataclass, field

from methodlint.window.axis import Axis
from methodlint.window.trials import Outcome, State

__all__ = ["SIDE", "Border", "Layer", "Piece", "Region"]

Spot = tuple[int, int]
Place = tuple[float, float]
Cell = tuple[int, int, int]

CELLS = 12
COARSE = 512
SIDE = CELLS * COARSE
"""Length of each side of the plane, in the units that places in it are counted in."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A polygon in one state; corners in units of the plane."""

    state: State
    corners: tuple[Place, ...]


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
    start: Place
    end: Place


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

    def state(self, spot: Place) -> State:
        """State at a place."""
        size = COARSE
        while True:
            i, j = (min(int(c // size) * size, SIDE - size) for c in spot)
            if (i, j, size) in self.cells:
                pieces = self.cells[i, j, size]
                found = (piece.state for piece in pieces if within(spot, piece.corners))
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
    x_span: Place
    y_span: Place
    points: dict[Spot, Outcome] = field(default_factory=dict)
    judged: Layer = field(default_factory=lambda: Layer())
    care: Layer = field(default_factory=lambda: Layer())

    def values(self, spot: Place) -> Place:
        """Values of both settings at a place in the plane."""
        (x_low, x_high), (y_low, y_high) = self.x_span, self.y_span
        return (
            x_low + (x_high - x_low) * spot[0] / SIDE,
            y_low + (y_high - y_low) * spot[1] / SIDE,
        )

    def place(self, x: float, y: float) -> Place:
        """Place in the plane of two values."""
        (x_low, x_high), (y_low, y_high) = self.x_span, self.y_span
        return SIDE * (x - x_low) / (x_high - x_low), SIDE * (y - y_low) / (y_high - y_low)

    def state(self, x: float, y: float) -> State:
        """State at two values within the plane."""
        spot = self.place(x, y)
        found = self.judged.state(spot)
        return self.care.state(spot) if found == "holds" else found


def within(spot: Place, corners: tuple[Place, ...]) -> bool:
    """Whether a place lies in a convex polygon whose corners go round to the left."""
    return all(
        (x1 - x0) * (spot[1] - y0) - (y1 - y0) * (spot[0] - x0) >= -1e-9
        for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
