"""Sublimation line of CO2: auxiliary equation of Span & Wagner (1996), heat by Clapeyron.

The reference equation of state describes fluid CO2 only.  Below the triple-point pressure an
expanding stream meets solid CO2, for which this module has the sublimation pressure, and the heat
of sublimation that follows from its slope.

Source: R. Span, W. Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996), auxiliary equation for the
sublimation pressure; the coefficients are from memory, and are tested against the vapour pressures
and the calorimetric heat of sublimation (6030 cal/mol at 194.67 K) that W. F. Giauque and
C. J. Egan, J. Chem. Phys. 5, 45 (1937), print in their abstract.
"""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt

from methodlint.fluids.validity import ValidityRange

__all__ = [
    "VALIDITY",
    "sublimation_enthalpy",
    "sublimation_pressure",
    "sublimation_temperature",
]

FloatArray = npt.NDArray[np.float64]

_TRIPLE_TEMPERATURE: Final = 216.592
_TRIPLE_PRESSURE: Final = 0.51795e6
_COEFFICIENTS: Final = (-14.740846, 2.4327015, -5.3061778)
_EXPONENTS: Final = (1.0, 1.9, 2.9)

#: Density of solid CO2 [kg/m3] at 194.7 K and at the triple point, from memory.  The heat of
#: sublimation depends on it by 0.2 % (194.7 K) to 0.9 % (triple point) in all.
_SOLID_DENSITIES: Final = ((194.7, 1562.0), (216.592, 1512.0))

VALIDITY: Final = ValidityRange(
    "temperature",
    154.0,
    _TRIPLE_TEMPERATURE,
    "K",
    "sublimation pressure of CO2",
    "lower limit: coldest vapour pressure of Giauque & Egan 1937",
)


def sublimation_pressure(T: npt.ArrayLike) -> FloatArray:
    """Sublimation pressure [Pa] at temperature `T` [K].

    Raises
    ------
    OutOfRange
        If `T` is outside `VALIDITY`.
    """
    VALIDITY.require(T)
    return _pressure_and_slope(np.asarray(T, dtype=float))[0]


def sublimation_temperature(P: npt.ArrayLike) -> FloatArray:
    """Temperature [K] at which solid CO2 and its vapour coexist at pressure `P` [Pa].

    Raises
    ------
    OutOfRange
        If `P` is above the triple-point pressure or below the sublimation pressure at the lower
        end of `VALIDITY`.
    """
    pressure = np.asarray(P, dtype=float)
    lowest = float(sublimation_pressure(VALIDITY.lower))
    limits = ValidityRange("pressure", lowest, _TRIPLE_PRESSURE, "Pa", VALIDITY.model)
    limits.require(pressure)
    # ln P is nearly straight in 1/T, so Newton's steps in 1/T converge at once
    inverse = np.full(pressure.shape, 1.0 / 194.686)
    for _ in range(5):
        trial, slope = _pressure_and_slope(1.0 / inverse)
        inverse = inverse + np.log(pressure / trial) * trial * inverse**2 / -slope
        inverse = np.clip(inverse, 1.0 / VALIDITY.upper, 1.0 / VALIDITY.lower)
    return np.asarray(1.0 / inverse)[()]


def sublimation_enthalpy(T: npt.ArrayLike, vapour_density: npt.ArrayLike) -> FloatArray:
    """Heat of sublimation [J/kg] by the Clapeyron equation.

    Parameters
    ----------
    T : array_like
        Temperature [K].
    vapour_density : array_like
        Density [kg/m3] of the vapour over the solid.

    Raises
    ------
    OutOfRange
        If `T` is outside `VALIDITY`.
    """
    VALIDITY.require(T)
    temperature = np.asarray(T, dtype=float)
    (t0, r0), (t1, r1) = _SOLID_DENSITIES
    solid_density = r0 + (r1 - r0) * (temperature - t0) / (t1 - t0)
    slope = _pressure_and_slope(temperature)[1]
    volume = 1.0 / np.asarray(vapour_density, dtype=float) - 1.0 / solid_density
    return np.asarray(temperature * volume * slope)[()]


def _pressure_and_slope(T: FloatArray) -> tuple[FloatArray, FloatArray]:
    ratio = _TRIPLE_TEMPERATURE / T
    x = np.maximum(1.0 - 1.0 / ratio, 0.0)
    total = sum(a * x**n for a, n in zip(_COEFFICIENTS, _EXPONENTS, strict=True))
    change = sum(a * n * x ** (n - 1.0) for a, n in zip(_COEFFICIENTS, _EXPONENTS, strict=True))
    pressure = _TRIPLE_PRESSURE * np.exp(ratio * total)
    slope = pressure * (-ratio * total / T - ratio * change / _TRIPLE_TEMPERATURE)
    return np.asarray(pressure)[()], np.asarray(slope)[()]
