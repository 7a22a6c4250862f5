"""Vapour pressure by the Wagner form of the VDI Heat Atlas.

Source: VDI-Gesellschaft Verfahrenstechnik, VDI Heat Atlas, 2nd ed., Springer 2010, part D3.1;
transcribed from the open data tables of the chemicals library.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["CONSTANTS", "vapour_pressure"]

SOURCE = "VDI Heat Atlas, 2nd ed. (2010), part D3.1, vapour pressure"

#: Melting point [K], critical temperature [K], critical pressure [Pa], A, B, C, D.
CONSTANTS: Mapping[str, tuple[float, ...]] = {
    "methanol": (175.45, 513.38, 8216000.0, -8.72963, 1.4586, -2.78449, -0.70669),
    "ethanol": (159.05, 513.9, 6148000.0, -8.33803, 0.0872, -3.30575, -0.26001),
    "1-propanol": (146.85, 536.75, 5175000.0, -8.60671, 2.17353, -8.04678, 3.69194),
    "2-propanol": (185.25, 508.25, 4762000.0, -8.44737, 1.17402, -6.97876, 0.69248),
    "acetonitrile": (229.25, 545.55, 4830000.0, -9.22263, 5.68045, -6.67111, 4.51306),
    "water": (273.15, 647.1, 22064000.0, -7.86975, 1.90561, -2.30891, -2.06472),
    "n-pentane": (143.35, 469.66, 3369000.0, -7.36401, 1.94358, -2.47191, -2.34757),
    "n-hexane": (177.75, 507.79, 3042000.0, -7.61075, 2.00527, -2.74158, -2.82824),
    "n-heptane": (182.55, 541.23, 2774000.0, -7.75469, 1.84795, -2.80333, -3.62418),
    "cyclohexane": (279.65, 553.6, 4075000.0, -7.00979, 1.57475, -1.9682, -3.26095),
    "ethyl acetate": (189.65, 523.2, 3830000.0, -7.89734, 2.16798, -3.5239, -3.10641),
    "dichloromethane": (178.05, 510.05, 6080000.0, -7.57368, 3.17104, -3.53296, -2.27696),
    "chloroform": (209.65, 536.45, 5554000.0, -7.32485, 1.69599, -0.93627, -5.8959),
    "acetone": (178.35, 508.1, 4692000.0, -7.67033, 1.96469, -2.4438, -2.90162),
    "1,4-dioxane": (284.95, 587.05, 5208000.0, -7.40401, 2.12025, -3.88819, 1.69876),
    "toluene": (178.15, 591.75, 4126000.0, -7.50051, 2.08939, -2.56368, -2.85042),
    "diethyl ether": (156.75, 466.63, 3651000.0, -7.55709, 2.15613, -3.02766, -2.37858),
    "acetic acid": (289.95, 591.95, 5786000.0, -9.34304, 3.77735, -3.59092, -1.57006),
    "formic acid": (281.65, 588.05, 5810000.0, -7.48216, 0.88805, -0.32253, -2.58053),
    "1-butanol": (183.75, 563.05, 4423000.0, -8.3312, 2.0553, -8.17754, 0.19316),
}


def _law(T: Any, tc: float, pc: float, a: float, b: float, c: float, d: float) -> Any:
    import numpy as np

    tau = 1.0 - T / tc
    root = np.sqrt(tau)
    sum_ = tau * (a + b * root + c * tau * root + d * tau**4)
    return pc * np.exp(tc / T * sum_)


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
    lower, *constants = CONSTANTS[name]
    return TemperatureCorrelation(
        quantity=f"vapour pressure of {name}",
        unit="Pa",
        law=_law,
        coefficients=tuple(constants),
        lower=lower,
        upper=constants[0],
        band=band,
        source=SOURCE,
        level=level,
        level_source=level_source,
    )
