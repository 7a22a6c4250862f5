"""Liquid density by the four-term form of the VDI Heat Atlas.

Source: VDI-Gesellschaft Verfahrenstechnik, VDI Heat Atlas, 2nd ed., Springer 2010, part D3.1;
transcribed from the open data tables of the chemicals library.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["CONSTANTS", "density"]

SOURCE = "VDI Heat Atlas, 2nd ed. (2010), part D3.1, density of saturated liquids"

#: Critical temperature [K], critical density [kg/m3], A, B, C, D [kg/m3].
CONSTANTS: Mapping[str, tuple[float, ...]] = {
    "methanol": (513.38, 282.0, 164.7611, 2257.7678, -3545.6923, 1929.7376),
    "ethanol": (513.9, 276.0, 748.617, -412.3622, 776.4394, -436.6757),
    "1-propanol": (536.75, 274.0, 816.2709, -549.2099, 696.9841, -232.082),
    "2-propanol": (508.25, 273.0, 865.9165, -744.0943, 975.9052, -381.1278),
    "acetonitrile": (545.55, 237.0, 565.3431, -36.8917, 312.7935, -27.5047),
    "water": (647.1, 322.0, 1094.0233, -1813.2295, 3863.9557, -2479.813),
    "n-pentane": (469.66, 235.0, 331.1104, 681.0817, -965.3279, 602.3613),
    "n-hexane": (507.79, 223.0, 537.394, 87.8728, -283.3888, 344.5049),
    "n-heptane": (541.23, 225.0, 308.4582, 1071.686, -1664.6321, 990.254),
    "cyclohexane": (553.6, 273.0, 373.9221, 848.7461, -1261.1653, 815.8631),
    "ethyl acetate": (523.2, 308.0, 660.3752, 8.8513, 207.168, 1.5101),
    "dichloromethane": (510.05, 459.0, 937.7851, 96.8605, 196.4483, 106.8482),
    "chloroform": (536.45, 508.0, 1175.1441, -347.5847, 842.3866, -239.1385),
    "acetone": (508.1, 274.0, 547.382, 208.742, -203.7599, 253.9936),
    "1,4-dioxane": (587.05, 370.0, 678.8964, -120.4207, 544.3169, -167.1524),
    "toluene": (591.75, 292.0, 439.5835, 839.1558, -1234.8445, 797.8741),
    "diethyl ether": (466.63, 264.0, 521.2805, 257.7528, -489.2726, 486.7458),
    "acetic acid": (591.95, 334.0, 925.3897, -312.7993, 340.0633, 29.7204),
    "formic acid": (588.05, 368.0, 1181.5822, -735.7666, 1040.1334, -334.6213),
    "1-butanol": (563.05, 270.0, 777.2534, -446.842, 578.8813, -172.9538),
}

#: The publication gives no range: this is where it was compared with other data [K].
LOWER, UPPER = 263.15, 373.15


def _law(T: Any, tc: float, rhoc: float, a: float, b: float, c: float, d: float) -> Any:
    import numpy as np

    tau = 1.0 - T / tc
    x = np.cbrt(tau)
    return rhoc + a * np.power(tau, 0.35) + b * x * x + c * tau + d * tau * x


def density(
    name: str, freezing_point: float, *, band: float, level: float = 1.0, level_source: str = ""
) -> TemperatureCorrelation:
    """Density of one liquid.

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
        Density [kg/m3] of the liquid under its own vapour (1 bar makes no difference).

    Raises
    ------
    KeyError
        If the publication has no constants for `name`.
    """
    constants = CONSTANTS[name]
    return TemperatureCorrelation(
        quantity=f"density of {name}",
        unit="kg/m3",
        law=_law,
        coefficients=constants,
        lower=max(LOWER, freezing_point),
        upper=UPPER,
        band=band,
        source=SOURCE,
        level=level,
        level_source=level_source,
    )
