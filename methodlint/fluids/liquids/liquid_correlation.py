"""A property of a liquid as a function of temperature, with its range, source and error band."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    from methodlint.fluids.validity import ValidityRange

__all__ = ["TemperatureCorrelation"]


@dataclass(frozen=True, slots=True)
class TemperatureCorrelation:
    """One property of one liquid against temperature; call it with temperatures [K].

    Parameters
    ----------
    quantity : str
        What comes out, e.g. ``"density of methanol"``.
    unit : str
        SI unit of the result.
    law : callable
        ``law(T, *coefficients)`` with T [K] as an array.
    coefficients : tuple of float
        The published constants for this liquid.
    lower, upper : float
        Temperatures [K] between which the constants hold; both belong to the range.
    band : float
        Relative half-width of the error, e.g. 0.02 for 2 %.
    source : str
        The publication of the constants.
    level : float, optional
        Factor on the published value that puts the curve through better data.
    level_source : str, optional
        Those better data; empty where `level` is 1.
    """

    quantity: str
    unit: str
    law: Callable[..., Any]
    coefficients: tuple[float, ...]
    lower: float
    upper: float
    band: float
    source: str
    level: float = 1.0
    level_source: str = ""

    @property
    def validity(self) -> ValidityRange:
        """Temperatures [K] in which the correlation holds."""
        from methodlint.fluids.validity import ValidityRange

        return ValidityRange(
            "temperature", self.lower, self.upper, "K", f"the {self.quantity}", self.source
        )

    def __call__(self, T: npt.ArrayLike) -> npt.NDArray[np.float64]:
        """Value of the property.

        Parameters
        ----------
        T : float or array_like
            Temperature [K].

        Returns
        -------
        numpy.ndarray
            Property in the SI unit `unit`, of the shape of `T`.

        Raises
        ------
        OutOfRange
            If any temperature is outside `lower` to `upper` or NaN.
        """
        import numpy as np

        temperature = np.asarray(T, dtype=float)
        if not ((temperature >= self.lower) & (temperature <= self.upper)).all():
            self.validity.require(temperature)
        value: npt.NDArray[np.float64] = np.asarray(
            self.level * self.law(temperature, *self.coefficients), dtype=float
        )
        return value

    def covers(self, T: npt.ArrayLike) -> npt.NDArray[np.bool_]:
        """Element by element: is the temperature [K] inside the range?"""
        return self.validity.contains(T)
