"""Density of a liquid under pressure by the Tait equation.

Source: J. H. Dymond, R. Malhotra, The Tait equation: 100 years on, Int. J. Thermophys. 9 (1988)
941-951 (equation from memory)::

    (rho - rho0)/rho = C log10((B + P)/(B + P0))

C = 0.215 serves all liquids here. B(T) was fitted, 0-100 C and 1-700 bar, to the reference
equations of methanol (de Reuck & Craven 1993; largest deviation 0.021 %) and ethanol (Schroeder,
Penoncello & Schroeder 2014; 0.041 %), both through CoolProp 8.0.0. For the others B is that of
the nearer alcohol scaled by the ratio of isothermal compressibilities at 25 C, from memory:
2-propanol 1.13, acetonitrile 1.10, water 0.452, tetrahydrofuran 0.97 per GPa; that leaves about
0.2 % at 300 bar.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from methodlint.fluids.validity import StateRange, ValidityRange

Array = NDArray[np.float64]

C = 0.215
REFERENCE_PRESSURE = 101325.0

_MODEL = "the Tait equation of liquids"
_FITTED = "span of the fit, see the module"
#: Not enforced here, where arrays are fitted: `mixture.MixtureModel.validity` lies inside it.
VALIDITY = StateRange(
    ValidityRange("temperature", 273.15, 373.15, "K", _MODEL, _FITTED),
    ValidityRange("pressure", 1e5, 700e5, "Pa", _MODEL, _FITTED),
)

_METHANOL = (62.455e6, -46.523e6, 6.632e6)
_ETHANOL = (69.015e6, -51.491e6, 6.472e6)

#: Coefficients b0, b1, b2 [Pa] of B = b0 + b1 t + b2 t^2 with t = (T - 323.15 K)/100 K.
COEFFICIENTS: dict[str, tuple[float, float, float]] = {
    "methanol": _METHANOL,
    "ethanol": _ETHANOL,
    "2-propanol": (1.03 * _ETHANOL[0], 1.03 * _ETHANOL[1], 1.03 * _ETHANOL[2]),
    "acetonitrile": (1.15 * _METHANOL[0], 1.15 * _METHANOL[1], 1.15 * _METHANOL[2]),
    "tetrahydrofuran": (1.30 * _METHANOL[0], 1.30 * _METHANOL[1], 1.30 * _METHANOL[2]),
    # Compressibility of water hardly changes between 0 and 100 C.
    "water": (206e6, 0.0, 0.0),
}


def compression(name: str, T: ArrayLike, P: ArrayLike) -> Array:
    """Density at pressure over density at 1 atm [-].

    Parameters
    ----------
    name : str
        A key of `COEFFICIENTS`.
    T : array_like
        Temperature [K], 273.15 to 373.15.
    P : array_like
        Pressure [Pa], to 700e5.

    Raises
    ------
    KeyError
        For a liquid without coefficients.

    """
    b0, b1, b2 = COEFFICIENTS[name]
    t = (np.asarray(T, dtype=float) - 323.15) / 100.0
    b = b0 + t * (b1 + t * b2)
    ratio = (b + np.asarray(P, dtype=float)) / (b + REFERENCE_PRESSURE)
    return np.asarray(1.0 / (1.0 - C * np.log10(ratio)))
