"""Liquid viscosity by the five-constant form of Perry's handbook.

Source: D. W. Green, R. H. Perry (eds.), Perry's Chemical Engineers' Handbook, 8th ed., McGraw-Hill 2008,
table 2-313; transcribed from the open data tables of the chemicals library.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["CONSTANTS", "viscosity"]

SOURCE = "Perry's Chemical Engineers' Handbook, 8th ed. (Green & Perry 2008), table 2-313"

#: C1 to C5 for viscosity in Pa s, lowest and highest temperature [K].
CONSTANTS: Mapping[str, tuple[float, ...]] = {
    "methanol": (-25.317, 1789.2, 2.069, 0.0, 0.0, 175.47, 337.85),
    "ethanol": (7.875, 781.98, -3.0418, 0.0, 0.0, 200.0, 440.0),
    "1-propanol": (23.467, 116.07, -5.3372, 2880100000.0, -4.0267, 146.95, 370.35),
    "2-propanol": (-8.8918, 2357.6, -0.91376, 0.0, 0.0, 185.26, 355.3),
    "acetonitrile": (-10.906, 872.02, 0.0, 0.0, 0.0, 229.32, 436.4),
    "n-pentane": (-53.509, 1836.6, 7.1409, -1.9627e-05, 2.0, 143.42, 465.15),
    "n-hexane": (-6.3276, 640.0, -0.694, 5.6884e21, -10.0, 174.65, 406.08),
    "n-heptane": (-9.4622, 877.07, -0.23445, 1.4022e22, -10.0, 180.15, 432.16),
    "isooctane": (-12.928, 1137.5, 0.25725, -3.6929e-28, 10.0, 165.78, 541.15),
    "cyclohexane": (-33.763, 2497.2, 3.2236, 0.0, 0.0, 279.69, 443.04),
    "ethyl acetate": (14.354, -154.6, -3.7887, 0.0, 0.0, 220.0, 473.15),
    "dichloromethane": (-13.071, 940.03, 0.3733, 0.0, 0.0, 208.38, 373.93),
    "chloroform": (-14.109, 1049.2, 0.5377, 0.0, 0.0, 209.63, 353.2),
    "acetone": (-14.918, 1023.4, 0.5961, 0.0, 0.0, 190.0, 329.44),
    "tetrahydrofuran": (-10.321, 900.92, -0.069128, 0.0, 0.0, 164.65, 373.15),
    "1,4-dioxane": (-46.166, 3086.2, 5.104, 0.0, 0.0, 284.95, 374.65),
    "toluene": (-226.08, 6805.7, 37.542, -0.060853, 1.0, 178.18, 383.78),
    "dimethyl sulfoxide": (-37.347, 2835.0, 3.7937, 0.0, 0.0, 291.67, 464.0),
    "N,N-dimethylformamide": (-20.425, 1515.5, 1.4444, 0.0, 0.0, 240.0, 425.15),
    "methyl tert-butyl ether": (-6.921, 790.773, -0.654, 0.0, 0.0, 164.55, 450.0),
    "diethyl ether": (10.197, -63.8, -3.226, 0.0, 0.0, 200.0, 373.15),
    "diisopropyl ether": (-11.5, 993.0, 0.022, 0.0, 0.0, 187.65, 341.45),
    "acetic acid": (-9.03, 1212.3, -0.322, 0.0, 0.0, 289.81, 391.05),
    "formic acid": (-48.529, 3394.7, 5.3903, 0.0, 0.0, 281.45, 373.71),
    "tert-butanol": (51.356, -1249.5, -9.4593, 3.694e24, -9.8759, 295.56, 451.21),
    "1-butanol": (0.87669, 1602.9, -2.1475, 3.3866e22, -9.9231, 190.0, 391.9),
}


def _law(T: Any, c1: float, c2: float, c3: float, c4: float, c5: float) -> Any:
    import numpy as np

    return np.exp(c1 + c2 / T + c3 * np.log(T) + c4 * np.power(T, c5))


def viscosity(
    name: str, *, band: float, level: float = 1.0, level_source: str = ""
) -> TemperatureCorrelation:
    """Viscosity of one liquid.

    Parameters
    ----------
    name : str
        Name as in `CONSTANTS`.
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
    *constants, lower, upper = CONSTANTS[name]
    return TemperatureCorrelation(
        quantity=f"viscosity of {name}",
        unit="Pa s",
        law=_law,
        coefficients=tuple(constants),
        lower=lower,
        upper=upper,
        band=band,
        source=SOURCE,
        level=level,
        level_source=level_source,
    )
