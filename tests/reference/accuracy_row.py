"""One line of the accuracy table."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

Trust = Literal[
    "measured",
    "reference equation",
    "handbook",
    "unverified",
    "another model only",
    "not compared",
]
SMALLEST = 0.001
"""Errors below this, in the unit of the row, are not told apart."""


@dataclass(frozen=True, eq=False)
class Row:
    """One comparison.

    Attributes
    ----------
    quantity, range, source
        In words.
    trust
        What the other side is.
    errors
        Computed less reference in `unit`, one per point; empty where nothing was at hand.
    unit
        "%" of the reference value, or a unit.
    """

    quantity: str
    range: str
    source: str
    trust: Trust
    errors: tuple[float, ...] = ()
    unit: str = "%"

    @property
    def mean(self) -> float:
        """Mean of the errors' sizes."""
        return float(np.mean(np.abs(self.errors)))

    @property
    def worst(self) -> float:
        """Largest size."""
        return float(np.max(np.abs(self.errors)))

    def cells(self) -> list[str]:
        """Text of the columns."""
        if not self.errors:
            return [self.quantity, self.range, self.source, self.trust, "0", "-", "-"]
        figures = [f"{rounded(value)} {self.unit}" for value in (self.mean, self.worst)]
        count = str(len(self.errors))
        return [self.quantity, self.range, self.source, self.trust, count, *figures]


def rounded(value: float) -> str:
    """Two figures that mean something."""
    if not math.isfinite(value):
        raise ValueError("an error of a comparison has to be a number")
    if value < SMALLEST:
        return f"< {SMALLEST}"
    decimals = max(0, 1 - math.floor(math.log10(value)))
    return f"{value:.{decimals}f}"


def per_cent(computed: npt.ArrayLike, reference: npt.ArrayLike) -> tuple[float, ...]:
    """Relative errors [%]."""
    ratio = np.asarray(computed, dtype=float) / np.asarray(reference, dtype=float)
    return tuple(float(error) for error in np.atleast_1d(100.0 * (ratio - 1.0)).ravel())


def apart(
    computed: npt.ArrayLike, reference: npt.ArrayLike, scale: float = 1.0
) -> tuple[float, ...]:
    """Differences over `scale`."""
    difference = np.asarray(computed, dtype=float) - np.asarray(reference, dtype=float)
    return tuple(float(error) for error in np.atleast_1d(difference / scale).ravel())


def spread(count: int, *limits: tuple[float, float]) -> Iterable[npt.NDArray[np.float64]]:
    """Points that fill a box evenly without lying on any grid (additive recurrence)."""
    # the plastic number makes the two-dimensional sequence even
    steps = (0.7548776662466927, 0.5698402909980532)
    number = np.arange(1, count + 1)
    for step, (low, high) in zip(steps, limits, strict=False):
        yield low + (high - low) * np.mod(0.5 + number * step, 1.0)
