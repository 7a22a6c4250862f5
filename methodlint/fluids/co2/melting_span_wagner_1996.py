"""Melting line of CO2: auxiliary equation of Span & Wagner (1996).

Source: R. Span, W. Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996), auxiliary equation for the
melting pressure.
"""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2.constants import TRIPLE_PRESSURE, TRIPLE_TEMPERATURE
from methodlint.fluids.validity import ValidityRange

__all__ = ["VALIDITY", "melting_pressure", "melting_temperature"]

FloatArray = npt.NDArray[np.float64]

#: Callers ask only at pressures that `co2_states.FALLBACK_VALIDITY` has let pass.
VALIDITY: Final = ValidityRange(
    "pressure",
    TRIPLE_PRESSURE,
    8e8,
    "Pa",
    "melting pressure of CO2",
    "upper end of the equation of state, 800 MPa (Span & Wagner 1996, abstract)",
)

_LINEAR: Final = 1955.5390
_QUADRATIC: Final = 2055.4593


def melting_pressure(T: npt.ArrayLike) -> FloatArray:
    """Pressure [Pa] above which CO2 freezes at `T` [K]; that of the triple point below it."""
    x = np.maximum(np.asarray(T, dtype=float) / TRIPLE_TEMPERATURE - 1.0, 0.0)
    return np.asarray(TRIPLE_PRESSURE * (1.0 + _LINEAR * x + _QUADRATIC * x * x))[()]


def melting_temperature(P: npt.ArrayLike) -> FloatArray:
    """Temperature [K] below which CO2 freezes at `P` [Pa]; that of the triple point below it."""
    excess = np.maximum(np.asarray(P, dtype=float) / TRIPLE_PRESSURE - 1.0, 0.0)
    half = _LINEAR / (2.0 * _QUADRATIC)
    x = np.sqrt(half * half + excess / _QUADRATIC) - half
    return np.asarray(TRIPLE_TEMPERATURE * (1.0 + x))[()]
