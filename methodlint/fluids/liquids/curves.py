"""Which published curve is taken for density, viscosity and vapour pressure of each liquid, and its error."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from methodlint.fluids.liquids.density_kell_1975 import WATER_DENSITY
from methodlint.fluids.liquids.density_of_2_propanol import PROPANOL_DENSITY
from methodlint.fluids.liquids.green_2008 import DENSITY as GREEN_DENSITY
from methodlint.fluids.liquids.green_2008 import VAPOUR_PRESSURE as GREEN_PRESSURE
from methodlint.fluids.liquids.green_2008 import VISCOSITY as GREEN_VISCOSITY
from methodlint.fluids.liquids.liquid_correlation import Published, TemperatureCorrelation
from methodlint.fluids.liquids.poling_2001 import VAPOUR_PRESSURE as POLING_PRESSURE
from methodlint.fluids.liquids.vdi_2010 import DENSITY as VDI_DENSITY
from methodlint.fluids.liquids.vdi_2010 import VAPOUR_PRESSURE as VDI_PRESSURE
from methodlint.fluids.liquids.vdi_2010 import VISCOSITY as VDI_VISCOSITY
from methodlint.fluids.liquids.viscosity_iapws_2008 import WATER_VISCOSITY

__all__ = ["CURVES", "Choice"]

_THERMOML = "ThermoML medians of measurements at 20-40 C"
_CRC = "CRC Handbook, 25 C"

Choice: TypeAlias = (
    TemperatureCorrelation | tuple[Published, float] | tuple[Published, float, float, str] | None
)

#: Density, viscosity, vapour pressure: publication, relative half-width of the error, and where better
#: data are there the factor that puts the curve through them, with those data.
CURVES: Mapping[str, tuple[Choice, Choice, Choice]] = {
    "methanol":                ((VDI_DENSITY, 0.0015, 0.9992, _THERMOML), (VDI_VISCOSITY, 0.02), (VDI_PRESSURE, 0.01)),
    "ethanol":                 ((VDI_DENSITY, 0.0015, 0.9991, _THERMOML), (GREEN_VISCOSITY, 0.02), (GREEN_PRESSURE, 0.015)),
    "1-propanol":              ((VDI_DENSITY, 0.003), (VDI_VISCOSITY, 0.03), (GREEN_PRESSURE, 0.02)),
    "2-propanol":              (PROPANOL_DENSITY, (GREEN_VISCOSITY, 0.03), (POLING_PRESSURE, 0.03)),
    "1-butanol":               ((VDI_DENSITY, 0.003), (VDI_VISCOSITY, 0.03), (GREEN_PRESSURE, 0.03)),
    "tert-butanol":            ((GREEN_DENSITY, 0.005), (GREEN_VISCOSITY, 0.08), (GREEN_PRESSURE, 0.02)),
    "n-pentane":               ((VDI_DENSITY, 0.002, 1.0008, "reference equation of state of CoolProp"), (GREEN_VISCOSITY, 0.04), (VDI_PRESSURE, 0.01)),
    "n-hexane":                ((VDI_DENSITY, 0.002), (GREEN_VISCOSITY, 0.05, 1.015, "reference correlation of CoolProp at 25 and 40 C"), (VDI_PRESSURE, 0.01)),
    "n-heptane":               ((VDI_DENSITY, 0.002), (GREEN_VISCOSITY, 0.04), (VDI_PRESSURE, 0.01)),
    "isooctane":               ((GREEN_DENSITY, 0.002, 0.9966, _CRC), (GREEN_VISCOSITY, 0.03), (GREEN_PRESSURE, 0.01)),
    "cyclohexane":             ((VDI_DENSITY, 0.002), (VDI_VISCOSITY, 0.03), (VDI_PRESSURE, 0.01)),
    "toluene":                 ((VDI_DENSITY, 0.002), (GREEN_VISCOSITY, 0.03), (VDI_PRESSURE, 0.01)),
    "tetrahydrofuran":         ((GREEN_DENSITY, 0.002, 1.0023, _THERMOML), (GREEN_VISCOSITY, 0.04), (GREEN_PRESSURE, 0.01)),
    "1,4-dioxane":             ((VDI_DENSITY, 0.002), (VDI_VISCOSITY, 0.03), (VDI_PRESSURE, 0.02)),
    "methyl tert-butyl ether": ((GREEN_DENSITY, 0.002, 0.9988, _THERMOML), (GREEN_VISCOSITY, 0.03, 0.985, _THERMOML), (GREEN_PRESSURE, 0.02)),
    "diethyl ether":           ((GREEN_DENSITY, 0.002), (GREEN_VISCOSITY, 0.04), (VDI_PRESSURE, 0.01)),
    "diisopropyl ether":       ((GREEN_DENSITY, 0.004, 0.998, _CRC), (GREEN_VISCOSITY, 0.2), (GREEN_PRESSURE, 0.03)),
    "2-methyltetrahydrofuran": (None, None, (POLING_PRESSURE, 0.02)),
    "acetonitrile":            ((GREEN_DENSITY, 0.002), (GREEN_VISCOSITY, 0.06), (VDI_PRESSURE, 0.03)),
    "acetone":                 ((VDI_DENSITY, 0.002, 0.999, _CRC), (VDI_VISCOSITY, 0.03), (VDI_PRESSURE, 0.01)),
    "ethyl acetate":           ((VDI_DENSITY, 0.002), (VDI_VISCOSITY, 0.03), (VDI_PRESSURE, 0.02)),
    "dichloromethane":         ((VDI_DENSITY, 0.002), (VDI_VISCOSITY, 0.03), (VDI_PRESSURE, 0.02)),
    "chloroform":              ((VDI_DENSITY, 0.002, 0.9972, _CRC), (VDI_VISCOSITY, 0.03), (VDI_PRESSURE, 0.01)),
    "dimethyl sulfoxide":      ((GREEN_DENSITY, 0.003), (GREEN_VISCOSITY, 0.03), (GREEN_PRESSURE, 0.1)),
    "N,N-dimethylformamide":   ((GREEN_DENSITY, 0.003), (GREEN_VISCOSITY, 0.05, 0.975, "CRC Handbook, 0.794 mPa s at 25 C (unverified)"), (GREEN_PRESSURE, 0.1)),
    "water":                   (WATER_DENSITY, WATER_VISCOSITY, (VDI_PRESSURE, 0.003)),
    "acetic acid":             ((VDI_DENSITY, 0.003, 1.0013, _CRC), (VDI_VISCOSITY, 0.07), (GREEN_PRESSURE, 0.03)),
    "formic acid":             ((VDI_DENSITY, 0.003), (VDI_VISCOSITY, 0.05), (VDI_PRESSURE, 0.03)),
}  # fmt: skip
