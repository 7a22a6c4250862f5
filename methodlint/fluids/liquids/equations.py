"""The forms of curves of liquids against temperature [K], one function each; constants come first to last."""

from __future__ import annotations

from typing import Any

__all__ = ["antoine", "cube_root", "five_constants", "four_terms", "rackett", "wagner"]


def rackett(T: Any, molar_mass: float, c1: float, c2: float, c3: float, c4: float) -> Any:
    """Density [kg/m3] in the extended form of Rackett; `molar_mass` in kg/mol."""
    import numpy as np

    return molar_mass * c1 / np.power(c2, 1.0 + np.power(1.0 - T / c3, c4))


def five_constants(T: Any, c1: float, c2: float, c3: float, c4: float, c5: float) -> Any:
    """Vapour pressure [Pa] or viscosity [Pa s] as exp(C1 + C2/T + C3 ln T + C4 T**C5)."""
    import numpy as np

    return np.exp(c1 + c2 / T + c3 * np.log(T) + c4 * np.power(T, c5))


def four_terms(T: Any, tc: float, rhoc: float, a: float, b: float, c: float, d: float) -> Any:
    """Density [kg/m3] by four terms of 1 - T/Tc."""
    import numpy as np

    tau = 1.0 - T / tc
    x = np.cbrt(tau)
    return rhoc + a * np.power(tau, 0.35) + b * x * x + c * tau + d * tau * x


def cube_root(T: Any, a: float, b: float, c: float, d: float, e: float) -> Any:
    """Viscosity [Pa s] by the cube root of (C - T)/(T - D)."""
    import numpy as np

    x = np.cbrt((c - T) / (T - d))
    return e * np.exp(a * x + b * np.power(x, 4))


def wagner(T: Any, tc: float, pc: float, a: float, b: float, c: float, d: float) -> Any:
    """Vapour pressure [Pa] in the form of Wagner with exponents 1, 1.5, 2.5 and 5."""
    import numpy as np

    tau = 1.0 - T / tc
    root = np.sqrt(tau)
    sum_ = tau * (a + b * root + c * tau * root + d * tau**4)
    return pc * np.exp(tc / T * sum_)


def antoine(T: Any, a: float, b: float, c: float) -> Any:
    """Vapour pressure [Pa] as 10**(A - B/(T + C))."""
    import numpy as np

    return np.power(10.0, a - b / (T + c))
