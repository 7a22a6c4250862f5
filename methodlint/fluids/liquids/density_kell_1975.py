"""Density of liquid water at one atmosphere.

Source: G. S. Kell, Density, thermal expansivity, and compressibility of liquid water from 0 to 150 C,
J. Chem. Eng. Data 20 (1975) 97-105, equation 16.
"""

from __future__ import annotations

from typing import Any

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["WATER_DENSITY"]


def _law(T: Any) -> Any:
    t = T - 273.15
    numerator = 999.83952 + t * (
        16.945176
        + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - 280.54253e-12 * t)))
    )
    return numerator / (1.0 + 16.879850e-3 * t)


WATER_DENSITY = TemperatureCorrelation(
    quantity="density of water",
    unit="kg/m3",
    law=_law,
    coefficients=(),
    lower=273.15,
    upper=373.15,
    band=1e-4,
    source="Kell 1975, J. Chem. Eng. Data 20, 97",
)
