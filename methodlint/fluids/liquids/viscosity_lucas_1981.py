"""Viscosity of a liquid under pressure, relative to the saturated liquid.

Source: K. Lucas, Die Druckabhängigkeit der Viskosität von Flüssigkeiten, eine einfache
Abschätzung, Chem. Ing. Tech. 53 (1981) 959-960, in the form of Poling, Prausnitz & O'Connell, The
Properties of Gases and Liquids, 5th ed., 2001, equation 9-9.1. Against the reference correlations
of methanol and ethanol in CoolProp 8.0.0 (0-100 C) it is low by 1-2 % at 100 bar, 4-7 % at 300
bar and 7-13 % at 600 bar.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from methodlint.fluids.peng_robinson_1976 import CriticalConstants
from methodlint.fluids.validity import ValidityRange

#: Not enforced here: `mixture.MixtureModel.validity` lies inside it for every modifier.
VALIDITY = ValidityRange(
    "reduced temperature",
    0.40,
    0.90,
    model="the Lucas rule for viscosity under pressure",
    source="Poling, Prausnitz & O'Connell 2001, section 9-9; limits (unverified)",
)

_C = (-0.07921, 2.1616, -13.4040, 44.1706, -84.8291, 96.1209, -59.8127, 15.6719)


def pressure_factor(
    critical: CriticalConstants, T: ArrayLike, P: ArrayLike, P_sat: ArrayLike = 0.0
) -> NDArray[np.float64]:
    """Viscosity at pressure over that of the saturated liquid [-].

    Parameters
    ----------
    critical : CriticalConstants
        Of the liquid.
    T : array_like
        Temperature [K], below 0.9 of the critical one.
    P : array_like
        Pressure [Pa].
    P_sat : array_like
        Vapour pressure [Pa].

    """
    Tr = np.asarray(T, dtype=float) / critical.temperature
    rise = np.maximum(np.asarray(P, dtype=float) - P_sat, 0.0) / critical.pressure
    A = 0.9991 - 4.674e-4 / (1.0523 * Tr**-0.03877 - 1.0513)
    D = 0.3257 / (1.0039 - Tr**2.573) ** 0.2906 - 0.2086
    c = np.polyval(_C[::-1], Tr)
    numerator = 1.0 + D * (rise / 2.118) ** A
    return np.asarray(numerator / (1.0 + c * critical.acentric_factor * rise))
