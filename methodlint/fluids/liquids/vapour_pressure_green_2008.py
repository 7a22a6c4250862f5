"""Vapour pressure by the five-constant form of Perry's handbook.

Source: D. W. Green, R. H. Perry (eds.), Perry's Chemical Engineers' Handbook, 8th ed., McGraw-Hill 2008,
table 2-8; transcribed from the open data tables of the chemicals library.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["CONSTANTS", "vapour_pressure"]

SOURCE = "Perry's Chemical Engineers' Handbook, 8th ed. (Green & Perry 2008), table 2-8"

#: C1 to C5 for pressure in Pa, lowest and highest temperature [K].
CONSTANTS: Mapping[str, tuple[float, ...]] = {
    "methanol": (82.718, -6904.5, -8.8622, 7.4664e-06, 2.0, 175.47, 512.5),
    "ethanol": (73.304, -7122.3, -7.1424, 2.8853e-06, 2.0, 159.05, 514.0),
    "1-propanol": (84.6642, -8307.2, -8.5767, 7.5091e-18, 6.0, 146.95, 536.8),
    "2-propanol": (96.094, -8575.4, -10.292, 1.6665e-17, 6.0, 185.26, 508.3),
    "acetonitrile": (58.302, -5385.6, -5.4954, 5.3634e-06, 2.0, 229.32, 545.5),
    "water": (73.649, -7258.2, -7.3037, 4.1653e-06, 2.0, 273.16, 647.096),
    "n-pentane": (78.741, -5420.3, -8.8253, 9.6171e-06, 2.0, 143.42, 469.7),
    "n-hexane": (104.65, -6995.5, -12.702, 1.2381e-05, 2.0, 177.83, 507.6),
    "n-heptane": (87.829, -6996.4, -9.8802, 7.2099e-06, 2.0, 182.57, 540.2),
    "isooctane": (84.912, -6722.2, -9.5157, 7.2244e-06, 2.0, 165.78, 543.8),
    "cyclohexane": (51.087, -5226.4, -4.2278, 9.7554e-18, 6.0, 279.69, 553.8),
    "ethyl acetate": (66.824, -6227.6, -6.41, 1.7914e-17, 6.0, 189.6, 523.3),
    "dichloromethane": (101.6, -6541.6, -12.247, 1.2311e-05, 2.0, 178.01, 510.0),
    "chloroform": (146.43, -7792.3, -20.614, 0.024578, 1.0, 207.15, 536.4),
    "acetone": (69.006, -5599.6, -7.0985, 6.2237e-06, 2.0, 178.45, 508.2),
    "tetrahydrofuran": (54.898, -5305.4, -4.7627, 1.4291e-17, 6.0, 164.65, 540.15),
    "1,4-dioxane": (44.494, -5406.7, -3.1287, 2.8913e-18, 6.0, 284.95, 587.0),
    "toluene": (76.945, -6729.8, -8.179, 5.3017e-06, 2.0, 178.18, 591.75),
    "dimethyl sulfoxide": (56.273, -7620.6, -4.6279, 4.3819e-07, 2.0, 291.67, 729.0),
    "N,N-dimethylformamide": (82.762, -7955.5, -8.8038, 4.2431e-06, 2.0, 212.72, 649.6),
    "methyl tert-butyl ether": (57.1511, -5201.7, -5.1429, 1.6529e-17, 6.0, 164.55, 497.1),
    "diethyl ether": (136.9, -6954.3, -19.254, 0.024508, 1.0, 156.85, 466.7),
    "diisopropyl ether": (41.631, -4668.7, -2.8551, 0.00063693, 1.0, 187.65, 500.05),
    "acetic acid": (53.27, -6304.5, -4.2985, 8.8865e-18, 6.0, 289.81, 591.95),
    "formic acid": (50.323, -5378.2, -4.203, 3.4697e-06, 2.0, 281.45, 588.0),
    "tert-butanol": (172.27, -11589.0, -22.113, 1.3703e-05, 2.0, 298.97, 506.2),
    "1-butanol": (106.295, -9866.4, -11.655, 1.0832e-17, 6.0, 183.85, 563.1),
}


def _law(T: Any, c1: float, c2: float, c3: float, c4: float, c5: float) -> Any:
    import numpy as np

    return np.exp(c1 + c2 / T + c3 * np.log(T) + c4 * np.power(T, c5))


def vapour_pressure(
    name: str, *, band: float, level: float = 1.0, level_source: str = ""
) -> TemperatureCorrelation:
    """Vapour pressure of one liquid.

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
        Vapour pressure [Pa] of the liquid.

    Raises
    ------
    KeyError
        If the publication has no constants for `name`.
    """
    *constants, lower, upper = CONSTANTS[name]
    return TemperatureCorrelation(
        quantity=f"vapour pressure of {name}",
        unit="Pa",
        law=_law,
        coefficients=tuple(constants),
        lower=lower,
        upper=upper,
        band=band,
        source=SOURCE,
        level=level,
        level_source=level_source,
    )
