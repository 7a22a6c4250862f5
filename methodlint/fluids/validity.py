"""Ranges in which a model holds, and the error that says a state lies outside one."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

__all__ = ["OutOfRange", "StateRange", "ValidityRange"]


class OutOfRange(ValueError):
    """A value lies outside the range in which a model holds.

    Parameters
    ----------
    quantity : str
        What was asked about, e.g. ``"temperature"``.
    value, lower, upper : float
        The offending value and the limits, all in the SI unit `unit`.
    unit : str, optional
        SI unit of the three numbers.
    model : str, optional
        The model whose range was left.
    """

    def __init__(
        self,
        quantity: str,
        value: float,
        lower: float,
        upper: float,
        unit: str = "",
        model: str = "",
    ) -> None:
        super().__init__(quantity, value, lower, upper, unit, model)
        self.quantity = quantity
        self.value = float(value)
        self.lower = float(lower)
        self.upper = float(upper)
        self.unit = unit
        self.model = model

    @property
    def outside_by(self) -> float:
        """Distance to the nearer limit [SI unit], negative below the range, NaN for NaN."""
        return _distance(self.value, self.lower, self.upper)

    def __str__(self) -> str:
        unit = f" {self.unit}" if self.unit else ""
        model = f" of {self.model}" if self.model else ""
        return (
            f"{self.quantity} {self.value:.6g}{unit} is outside the range{model}: "
            f"{self.lower:.6g} to {self.upper:.6g}{unit}"
        )


@dataclass(frozen=True)
class ValidityRange:
    """Closed interval of one quantity in which a model holds.

    Parameters
    ----------
    quantity : str
        Name of the quantity, e.g. ``"temperature"``.
    lower, upper : float
        Limits in the SI unit `unit`; both belong to the range.
    unit : str, optional
        SI unit, e.g. ``"K"``.
    model : str, optional
        The model the range belongs to.
    source : str, optional
        Where the limits come from.
    """

    quantity: str
    lower: float
    upper: float
    unit: str = ""
    model: str = ""
    source: str = ""

    def contains(self, value: npt.ArrayLike) -> npt.NDArray[np.bool_]:
        """Element by element: is `value` [SI unit] inside?  NaN is not."""
        v = np.asarray(value, dtype=float)
        return np.asarray((v >= self.lower) & (v <= self.upper))

    def outside_by(self, value: npt.ArrayLike) -> float:
        """Signed distance of the worst element to the range [SI unit]; 0.0 if all are inside.

        Negative below the lower limit, positive above the upper one; NaN if any element is NaN.
        """
        worst = self._worst(value)
        return 0.0 if worst is None else _distance(worst, self.lower, self.upper)

    def require(self, value: npt.ArrayLike) -> None:
        """Let a value pass only if every element is inside.

        Raises
        ------
        OutOfRange
            If any element of `value` is outside or NaN; it carries the worst one.
        """
        worst = self._worst(value)
        if worst is not None:
            raise OutOfRange(self.quantity, worst, self.lower, self.upper, self.unit, self.model)

    def _worst(self, value: npt.ArrayLike) -> float | None:
        v = np.asarray(value, dtype=float).ravel()
        inside = self.contains(v)
        if inside.all():
            return None
        v = v[~inside]
        # argmax lands on a NaN first, which is then the value to show
        return float(v[np.argmax(np.maximum(self.lower - v, v - self.upper))])


@dataclass(frozen=True)
class StateRange:
    """Temperatures [K] and pressures [Pa] in which a model holds; iterates over its two ranges."""

    temperature: ValidityRange
    pressure: ValidityRange

    def __iter__(self) -> Iterator[ValidityRange]:
        return iter((self.temperature, self.pressure))

    def contains(self, T: npt.ArrayLike, P: npt.ArrayLike) -> npt.NDArray[np.bool_]:
        """Element by element: are temperature [K] and pressure [Pa] both inside?"""
        return np.asarray(self.temperature.contains(T) & self.pressure.contains(P))

    def require(self, T: npt.ArrayLike, P: npt.ArrayLike) -> None:
        """Let a state pass only if both its temperature [K] and pressure [Pa] are inside.

        Raises
        ------
        OutOfRange
            If any element is outside or NaN.
        """
        self.temperature.require(T)
        self.pressure.require(P)


def _distance(value: float, lower: float, upper: float) -> float:
    if value < lower:
        return value - lower
    if value > upper:
        return value - upper
    return value if math.isnan(value) else 0.0
