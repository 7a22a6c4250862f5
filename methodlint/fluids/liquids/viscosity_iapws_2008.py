"""Viscosity of liquid water at 0.1 MPa.

Source: International Association for the Properties of Water and Steam, Revised Supplementary Release on
Properties of Liquid Water at 0.1 MPa (SR6-08, 2011), table 7; the equation is of 2008.
"""

from __future__ import annotations

from typing import Any

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["WATER_VISCOSITY"]

#: Factors [Pa s] and exponents of the reduced temperature T / 300 K.
TERMS = ((280.68e-6, -1.9), (511.45e-6, -7.7), (61.131e-6, -19.6), (0.45903e-6, -40.0))


def _law(T: Any) -> Any:
    return sum(factor * (T / 300.0) ** exponent for factor, exponent in TERMS)


WATER_VISCOSITY = TemperatureCorrelation(
    quantity="viscosity of water",
    unit="Pa s",
    law=_law,
    coefficients=(),
    lower=253.15,
    upper=383.15,
    band=0.01,
    source="IAPWS SR6-08(2011), viscosity of liquid water at 0.1 MPa",
)
