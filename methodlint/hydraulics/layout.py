"""Slices of flow trains as arrays, so that trains of many methods share one march."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

__all__ = ["NULL_SEGMENT", "Layout", "Losses", "stack_layouts"]

NULL_SEGMENT = -1
"""Segment number of a padding slice."""


@dataclass(frozen=True)
class Layout:
    """Slices in flow order, pumps first, regulator last; arrays (S,) or (R, S).

    The pressure lost in a slice at volume flow Q, density rho and viscosity eta is

        viscous eta Q + inertial rho Q^2                    columns, laminar tubes
        f(Re) turbulent rho Q^2                             turbulent tubes

    Attributes
    ----------
    segment : ndarray of int
        Number of the segment in its train; `NULL_SEGMENT` for padding.
    is_tube, is_column : ndarray of bool
        Which law applies; neither for parts that lose nothing.
    viscous : ndarray
        Coefficient of the viscous loss [1/m3].
    inertial : ndarray
        Coefficient of the inertial loss of beds [1/m4].
    turbulent : ndarray
        L / (2 d A^2) of tubes [1/m4].
    reynolds : ndarray
        Reynolds number per mass flow over viscosity [1/m]: 4/(pi d) or dp/A.
    volume : ndarray
        Mobile phase in the slice [m3].
    temperature : ndarray
        Own temperature of the segment [K]; NaN where it has that of its surroundings.
    """

    segment: npt.NDArray[np.int64]
    is_tube: npt.NDArray[np.bool_]
    is_column: npt.NDArray[np.bool_]
    viscous: npt.NDArray[np.float64]
    inertial: npt.NDArray[np.float64]
    turbulent: npt.NDArray[np.float64]
    reynolds: npt.NDArray[np.float64]
    volume: npt.NDArray[np.float64]
    temperature: npt.NDArray[np.float64]

    def downstream_of(self, number: int) -> Layout:
        """The slices downstream of one, cut as they are here; of a layout (S,)."""
        return Layout(**{f.name: getattr(self, f.name)[number + 1 :] for f in fields(Layout)})

    @property
    def slices(self) -> int:
        """S, the number of slices."""
        return int(self.segment.shape[-1])

    def temperatures(self, surroundings: npt.ArrayLike) -> npt.NDArray[np.float64]:
        """Temperature of every slice [K].

        Parameters
        ----------
        surroundings : array_like
            Temperature [K] of slices without their own: scalar, (S,), (R, 1) or (R, S).

        Returns
        -------
        ndarray
            (S,) or (R, S).
        """
        around = np.asarray(surroundings, dtype=np.float64)
        return np.where(np.isnan(self.temperature), around, self.temperature)

    @property
    def losses(self) -> Losses:
        """What the pressure lost in every slice follows from."""
        return Losses(self.is_tube, self.viscous, self.inertial, self.turbulent, self.reynolds)


@dataclass(frozen=True, slots=True)
class Losses:
    """The part of a `Layout` that a sweep needs; arrays (S,) or (R, S)."""

    is_tube: npt.NDArray[np.bool_]
    viscous: npt.NDArray[np.float64]
    inertial: npt.NDArray[np.float64]
    turbulent: npt.NDArray[np.float64]
    reynolds: npt.NDArray[np.float64]

    def take(self, rows: npt.NDArray[np.int64]) -> Losses:
        """Some rows of those of a stacked layout; those of one train, (S,), stay as they are."""
        if self.viscous.ndim == 1:
            return self
        return Losses(
            self.is_tube[rows],
            self.viscous[rows],
            self.inertial[rows],
            self.turbulent[rows],
            self.reynolds[rows],
        )


_PADDING: dict[str, float] = {"segment": NULL_SEGMENT, "temperature": np.nan}


def stack_layouts(layouts: Sequence[Layout], rows: Sequence[int]) -> Layout:
    """One layout (R, S) for rows of different trains, or (S,) where all have the same one.

    Shorter trains get slices without volume or loss *behind* their regulator, so slice numbers
    stay those of the single train, `pressure[:, 0]` is the pump's and `pressure[:, -1]` the
    regulator's for every row.

    Parameters
    ----------
    layouts : sequence of Layout
        Layouts (S_i,) of single trains.
    rows : sequence of int
        How many rows each of them gets, in this order.

    Raises
    ------
    ValueError
        If there is nothing to stack, or the two sequences differ in length.
    """
    if not layouts or len(layouts) != len(rows):
        raise ValueError("stacking needs layouts, and a number of rows for each")
    # Plans with the same train share its layout, see `Train.layout`.
    trains = {id(layout): layout for layout in layouts}
    if len(trains) == 1:
        return layouts[0]
    number_of = {known: number for number, known in enumerate(trains)}
    numbers = np.repeat([number_of[id(layout)] for layout in layouts], rows)
    widest = max(layout.slices for layout in trains.values())
    stacked: dict[str, npt.NDArray[np.float64]] = {}
    for field in fields(Layout):
        values = [getattr(layout, field.name) for layout in trains.values()]
        shape = (len(values), widest)
        padded = np.full(shape, _PADDING.get(field.name, 0), dtype=values[0].dtype)
        for row, own in zip(padded, values, strict=True):
            row[: own.size] = own
        stacked[field.name] = padded[numbers]
    return Layout(**stacked)  # type: ignore[arg-type]
