"""Liquid viscosity by the five-constant form of the VDI Heat Atlas.

Source: VDI-Gesellschaft Verfahrenstechnik, VDI Heat Atlas, 2nd ed., Springer 2010, part D3.1;
transcribed from the open data tables of the chemicals library.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["CONSTANTS", "viscosity"]

SOURCE = "VDI Heat Atlas, 2nd ed. (2010), part D3.1, dynamic viscosity of saturated liquids"

#: A, B, C [K], D [K], E [Pa s].
CONSTANTS: Mapping[str, tuple[float, ...]] = {
    "methanol": (3.79226, 0.17755, 546.563, 87.845, 7.91e-06),
    "ethanol": (6.16832, -0.00125, 740.323, 90.778, 3.8e-07),
    "1-propanol": (4.91749, 0.83615, 482.98, 73.079, 1.026e-05),
    "2-propanol": (3.07172, 3.84587, 580.414, -62.691, 7.42e-06),
    "acetonitrile": (-0.08444, 3.22207, 685.539, -331.224, 6.935e-05),
    "water": (0.45047, 1.39753, 613.181, 63.697, 6.896e-05),
    "n-pentane": (2.80331, 0.25074, 474.455, 32.856, 1.653e-05),
    "n-hexane": (0.69508, 0.53665, 704.295, 16.747, 5.657e-05),
    "n-heptane": (2.96002, 0.24715, 553.942, 62.172, 1.424e-05),
    "cyclohexane": (0.7569, 2.02779, 787.882, -117.742, 3.221e-05),
    "ethyl acetate": (2.87505, 3.82999, 701.624, -475.816, 8.53e-06),
    "dichloromethane": (0.85505, 0.90417, 608.752, -18.795, 7.319e-05),
    "chloroform": (0.61822, 0.98765, 660.257, -29.324, 9.188e-05),
    "acetone": (1.65496, 0.5733, 610.687, 11.477, 2.915e-05),
    "1,4-dioxane": (-0.88995, 5.54776, 466.802, -109.574, 0.00041685),
    "toluene": (2.9548, 3e-05, 1048.107, 137.144, 3.97e-06),
    "diethyl ether": (2.19245, 3.83507, 520.594, -370.873, 2.04e-05),
    "acetic acid": (1.74793, 1.33728, 482.347, 41.78, 9.963e-05),
    "formic acid": (1.06486, 0.68065, 1102.891, 11.307, 2.427e-05),
    "1-butanol": (4.35655, 1.01095, 742.263, 26.911, 2.14e-06),
}

#: The publication gives no range: this is where it was compared with other data [K].
LOWER, UPPER = 263.15, 373.15


def _law(T: Any, a: float, b: float, c: float, d: float, e: float) -> Any:
    import numpy as np

    x = np.cbrt((c - T) / (T - d))
    return e * np.exp(a * x + b * np.power(x, 4))


def viscosity(
    name: str, freezing_point: float, *, band: float, level: float = 1.0, level_source: str = ""
) -> TemperatureCorrelation:
    """Viscosity of one liquid.

    Parameters
    ----------
    name : str
        Name as in `CONSTANTS`.
    freezing_point : float
        Freezing point [K], below which the constants are not used.
    band : float
        Relative half-width of the error.
    level, level_source : float and str, optional
        Factor through better data, and those data.

    Returns
    -------
    TemperatureCorrelation
        Dynamic viscosity [Pa s] of the liquid near atmospheric pressure.

    Raises
    ------
    KeyError
        If the publication has no constants for `name`.
    """
    constants = CONSTANTS[name]
    return TemperatureCorrelation(
        quantity=f"viscosity of {name}",
        unit="Pa s",
        law=_law,
        coefficients=constants,
        lower=max(LOWER, freezing_point),
        upper=UPPER,
        band=band,
        source=SOURCE,
        level=level,
        level_source=level_source,
    )
