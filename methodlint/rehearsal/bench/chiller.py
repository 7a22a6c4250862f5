"""Heat that the CO2 pump's cooler has to take out of what the supply sends it."""

from __future__ import annotations

from methodlint.documents.contents.cylinder_fill import total_capacity
from methodlint.documents.kinds.supply import Supply
from methodlint.fluids.co2 import properties as co2
from methodlint.rehearsal.bench.co2_store import (
    cylinder_pressure,
    mean_density,
    store_pressure,
)
from methodlint.rehearsal.bench.co2_supply import store_temperature

USABLE_SHARE = 0.8
"""Share of a cooler's rated heat that is counted on; common practice, no source."""

_LEAST_DENSITY = 50.0
"""Below that fill [kg/m3] the store is empty, which is another finding."""


def cooler_heat_per_mass(
    supply: Supply, head_temperature: float, drawn: float = 0.0
) -> float | None:
    """Heat to be removed from what this supply sends [J/kg], at its warmest.

    Above the critical temperature the pressure falls with the fill and the heat grows: the fill is
    that after `drawn` [kg] have left, where it is known.

    A line that is warmer than the store sends what has boiled in it; a vapour withdrawal sends
    saturated vapour; a dip tube sends saturated liquid.

    Returns
    -------
    float or None
        None if the store temperature, or the fill of a store above the critical temperature, is
        not known, or the head is no cold one: above the critical temperature.
    """
    store = store_temperature(supply)
    if store is None or head_temperature >= co2.CRITICAL_TEMPERATURE:
        return None
    pressure = store_pressure(supply, store.highest)
    if pressure is None:
        return None
    if store.highest >= co2.CRITICAL_TEMPERATURE:
        pressure = min(pressure, _pressure_after(supply, store.highest, drawn) or pressure)
    in_head = max(pressure, float(co2.saturation_pressure(head_temperature)) + 1e4)
    cold = float(co2.enthalpy(head_temperature, in_head))
    warmest = store.highest
    if supply.line_temperature is not None:
        warmest = max(warmest, supply.line_temperature.si)
    return _arriving_enthalpy(supply, store.highest, warmest, pressure) - cold


def _pressure_after(supply: Supply, temperature: float, drawn: float) -> float | None:
    """Pressure [Pa] at which the store ends, None where its fill is not known or gone."""
    density, capacity = mean_density(supply), total_capacity(supply)
    if density is None or not capacity:
        return None
    left = density - drawn / capacity
    return cylinder_pressure(temperature, left) if left >= _LEAST_DENSITY else None


def _arriving_enthalpy(supply: Supply, store: float, warmest: float, pressure: float) -> float:
    if warmest > store or store >= co2.CRITICAL_TEMPERATURE:
        return float(co2.enthalpy(warmest, pressure))
    # A hair beside the saturation line picks the phase.
    beside = 1e3 if supply.withdrawal != "vapour" else -1e3
    return float(co2.enthalpy(store, pressure + beside))
