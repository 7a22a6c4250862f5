"""Heat that the CO2 pump's cooler has to take out of what the supply sends it."""

from __future__ import annotations

from methodlint.documents.kinds.supply import Supply
from methodlint.fluids.co2 import properties as co2
from methodlint.rehearsal.bench.co2_store import store_pressure
from methodlint.rehearsal.bench.co2_supply import store_temperature

USABLE_SHARE = 0.8
"""Share of a cooler's rated heat that is counted on; common practice, no source."""


def cooler_heat_per_mass(supply: Supply, head_temperature: float) -> float | None:
    """Heat to be removed from what this supply sends [J/kg], at its warmest.

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
    in_head = max(pressure, float(co2.saturation_pressure(head_temperature)) + 1e4)
    cold = float(co2.enthalpy(head_temperature, in_head))
    warmest = store.highest
    if supply.line_temperature is not None:
        warmest = max(warmest, supply.line_temperature.si)
    return _arriving_enthalpy(supply, store.highest, warmest, pressure) - cold


def _arriving_enthalpy(supply: Supply, store: float, warmest: float, pressure: float) -> float:
    if warmest > store or store >= co2.CRITICAL_TEMPERATURE:
        return float(co2.enthalpy(warmest, pressure))
    # A hair beside the saturation line picks the phase.
    beside = 1e3 if supply.withdrawal != "vapour" else -1e3
    return float(co2.enthalpy(store, pressure + beside))
