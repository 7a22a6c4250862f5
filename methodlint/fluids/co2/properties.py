"""Pure CO2: the public page of everything the package knows about it.

State functions read surfaces generated from the reference equation of state (Span & Wagner 1996)
and viscosity correlation (Laesecke & Muzny 2017); see `co2_states`, `co2_saturation`,
`co2_closed_volume` and `co2_expansion` for errors, limits and sources.
"""

from __future__ import annotations

from methodlint.fluids.co2.closed_volume import pressure_at_density
from methodlint.fluids.co2.constants import (
    CRITICAL_DENSITY,
    CRITICAL_PRESSURE,
    CRITICAL_TEMPERATURE,
    MOLAR_MASS,
    TRIPLE_PRESSURE,
    TRIPLE_TEMPERATURE,
)
from methodlint.fluids.co2.expansion import (
    ExpansionEnd,
    isenthalpic_end,
    temperature_from_enthalpy,
)
from methodlint.fluids.co2.saturation import (
    saturated_liquid_density,
    saturated_vapour_density,
    saturation_pressure,
    saturation_temperature,
)
from methodlint.fluids.co2.states import (
    FALLBACK_VALIDITY,
    VALIDITY,
    compressibility,
    density,
    density_and_viscosity,
    enthalpy,
    expansivity,
    gas_density,
    heat_capacity,
    isenthalpic_slope,
    viscosity,
)
from methodlint.fluids.co2.sublimation_span_wagner_1996 import (
    sublimation_enthalpy,
    sublimation_pressure,
    sublimation_temperature,
)
from methodlint.fluids.validity import OutOfRange

__all__ = [
    "CRITICAL_DENSITY",
    "CRITICAL_PRESSURE",
    "CRITICAL_TEMPERATURE",
    "FALLBACK_VALIDITY",
    "MOLAR_MASS",
    "TRIPLE_PRESSURE",
    "TRIPLE_TEMPERATURE",
    "VALIDITY",
    "ExpansionEnd",
    "OutOfRange",
    "compressibility",
    "density",
    "density_and_viscosity",
    "enthalpy",
    "expansivity",
    "gas_density",
    "heat_capacity",
    "isenthalpic_end",
    "isenthalpic_slope",
    "pressure_at_density",
    "saturated_liquid_density",
    "saturated_vapour_density",
    "saturation_pressure",
    "saturation_temperature",
    "sublimation_enthalpy",
    "sublimation_pressure",
    "sublimation_temperature",
    "temperature_from_enthalpy",
    "viscosity",
]
