"""A property of a liquid as a function of temperature, with its range, source and error band."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    from methodlint.fluids.validity import ValidityRange

__all__ = ["Published", "TemperatureCorrelation"]


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


@dataclass(frozen=True, slots=True)
class Published:
    """Constants that one publication gives for one property of several liquids.

    Parameters
    ----------
    quantity, unit : str
        The property and its SI unit.
    law : callable
        ``law(T, *constants)`` with T [K] as an array.
    source : str
        Publication and table.
    rows : mapping of str to tuple of float
        Constants by liquid; the last two are the lowest and highest temperature [K].
    per_mole : bool, optional
        The law needs the molar mass [kg/mol] in front of the constants.
    above_freezing : bool, optional
        The range ends at the freezing point.
    """

    quantity: str
    unit: str
    law: Callable[..., Any]
    source: str
    rows: Mapping[str, tuple[float, ...]]
    per_mole: bool = False
    above_freezing: bool = False

    def curve(
        self,
        name: str,
        molar_mass: float,
        freezing_point: float,
        band: float,
        level: float = 1.0,
        level_source: str = "",
    ) -> TemperatureCorrelation:
        """Property of one liquid.

        Parameters
        ----------
        name : str
            Name as in `rows`.
        molar_mass, freezing_point : float
            [kg/mol] and [K].
        band : float
            Relative half-width of the error.
        level, level_source : float and str, optional
            Factor through better data, and those data.

        Raises
        ------
        KeyError
            If the publication has no constants for `name`.
        """
        *constants, lower, upper = self.rows[name]
        return TemperatureCorrelation(
            quantity=f"{self.quantity} of {name}",
            unit=self.unit,
            law=self.law,
            coefficients=(molar_mass, *constants) if self.per_mole else tuple(constants),
            lower=max(lower, freezing_point) if self.above_freezing else lower,
            upper=upper,
            band=band,
            source=self.source,
            level=level,
            level_source=level_source,
        )
