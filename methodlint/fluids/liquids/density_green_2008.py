"""Liquid density by the extended Rackett form of Perry's handbook.

Source: D. W. Green, R. H. Perry (eds.), Perry's Chemical Engineers' Handbook, 8th ed., McGraw-Hill 2008,
table 2-32; transcribed from the open data tables of the chemicals library.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["CONSTANTS", "density"]

SOURCE = "Perry's Chemical Engineers' Handbook, 8th ed. (Green & Perry 2008), table 2-32"

#: C1 [mol/m3], C2, C3 [K], C4, lowest and highest temperature [K].
CONSTANTS: Mapping[str, tuple[float, ...]] = {
    "methanol": (2326.7, 0.27073, 512.5, 0.24713, 175.47, 512.5),
    "ethanol": (1628.8, 0.27469, 514.0, 0.23178, 159.05, 514.0),
    "1-propanol": (1245.7, 0.27281, 536.8, 0.23994, 146.95, 536.8),
    "2-propanol": (1179.9, 0.2644, 508.3, 0.24653, 185.26, 508.3),
    "acetonitrile": (1306.4, 0.22597, 545.5, 0.28678, 229.32, 545.5),
    "n-pentane": (849.47, 0.26726, 469.7, 0.27789, 143.42, 469.7),
    "n-hexane": (708.24, 0.26411, 507.6, 0.27537, 177.83, 507.6),
    "n-heptane": (612.59, 0.26211, 540.2, 0.28141, 182.57, 540.2),
    "isooctane": (590.59, 0.27424, 543.8, 0.2847, 165.78, 543.8),
    "cyclohexane": (889.98, 0.27376, 553.8, 0.28571, 279.69, 553.8),
    "ethyl acetate": (899.6, 0.25856, 523.3, 0.278, 189.6, 523.3),
    "dichloromethane": (1389.7, 0.25678, 510.0, 0.2902, 178.01, 510.0),
    "chloroform": (1084.1, 0.2581, 536.4, 0.2741, 209.63, 536.4),
    "acetone": (1233.2, 0.25886, 508.2, 0.2913, 178.45, 508.2),
    "tetrahydrofuran": (1254.3, 0.28084, 540.15, 0.2912, 164.65, 540.15),
    "1,4-dioxane": (1181.9, 0.2813, 587.0, 0.3047, 284.95, 587.0),
    "toluene": (879.2, 0.27136, 591.75, 0.29241, 178.18, 591.75),
    "dimethyl sulfoxide": (1109.6, 0.25189, 729.0, 0.3311, 291.67, 729.0),
    "N,N-dimethylformamide": (896.15, 0.23478, 649.6, 0.28091, 212.72, 649.6),
    "methyl tert-butyl ether": (928.0, 0.289, 497.1, 0.286, 164.55, 497.1),
    "diethyl ether": (955.4, 0.26847, 466.7, 0.2814, 156.85, 466.7),
    "diisopropyl ether": (692.13, 0.26974, 500.05, 0.28571, 187.65, 500.05),
    "acetic acid": (1448.6, 0.25892, 591.95, 0.2529, 289.81, 591.95),
    "formic acid": (1938.0, 0.24225, 588.0, 0.24435, 281.45, 588.0),
    "tert-butanol": (921.28, 0.25442, 506.2, 0.27586, 298.97, 506.2),
    "1-butanol": (982.79, 0.2683, 563.1, 0.25488, 183.85, 563.1),
}


def _law(T: Any, molar_mass: float, c1: float, c2: float, c3: float, c4: float) -> Any:
    import numpy as np

    return molar_mass * c1 / np.power(c2, 1.0 + np.power(1.0 - T / c3, c4))


def density(
    name: str, molar_mass: float, *, band: float, level: float = 1.0, level_source: str = ""
) -> TemperatureCorrelation:
    """Density of one liquid.

    Parameters
    ----------
    name : str
        Name as in `CONSTANTS`.
    molar_mass : float
        Molar mass [kg/mol].
    band : float
        Relative half-width of the error.
    level, level_source : float and str, optional
        Factor through better data, and those data.

    Returns
    -------
    TemperatureCorrelation
        Density [kg/m3] of the liquid under its own vapour (1 bar makes no difference).

    Raises
    ------
    KeyError
        If the publication has no constants for `name`.
    """
    c1, c2, c3, c4, lower, upper = CONSTANTS[name]
    return TemperatureCorrelation(
        quantity=f"density of {name}",
        unit="kg/m3",
        law=_law,
        coefficients=(molar_mass, c1, c2, c3, c4),
        lower=lower,
        upper=min(upper, 0.95 * c3),
        band=band,
        source=SOURCE,
        level=level,
        level_source=level_source,
    )
