"""Pressure of CO2 in its store: against the pump head, the warm line and the weakest part."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.documents.contents.cylinder_fill import LIQUID, real_filling, total_capacity
from methodlint.documents.kinds.supply import Supply
from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.validity import OutOfRange
from methodlint.rehearsal.bench.co2_supply import store_temperature

SUBCOOLING = 3e5
"""Pressure above saturation [Pa] that a pump head needs; common practice, no source."""

_GAS_CONSTANT = 8.314462618
_COLDEST, _WARMEST = 233.15, 373.15


@dataclass(frozen=True, slots=True)
class WeakestPart:
    """The part of a supply with the lowest pressure rating.

    Attributes
    ----------
    name
        As on the card.
    rating
        [Pa, abs].
    path
        Where the card gives it.
    """

    name: str
    rating: float
    path: tuple[str | int, ...]


def weakest_part(supply: Supply) -> WeakestPart | None:
    """Find the weakest of the relief, and the parts that a card rates; None if it rates none."""
    parts = [
        WeakestPart(part.part, part.pressure_rating.si, ("rated_parts", index))
        for index, part in enumerate(supply.rated_parts)
    ]
    if supply.cylinder_relief is not None:
        relief = supply.cylinder_relief.si
        parts.append(WeakestPart("relief of the cylinder", relief, ("cylinder_relief",)))
    return min(parts, key=lambda part: part.rating, default=None)


def mean_density(supply: Supply, *, fresh: bool = False) -> float | None:
    """CO2 per volume of the connected cylinders [kg/m3].

    Parameters
    ----------
    fresh
        As freshly filled: the greatest of the filling ratio and of full and net mass per water
        capacity. Otherwise what is in it now.

    Returns
    -------
    float or None
        None if the card does not give the figures, or a mass that nothing can press into it.
    """
    if fresh:
        return real_filling(supply)
    volume = total_capacity(supply)
    if supply.net_mass is None or not volume:
        return None
    held = supply.net_mass.si
    if supply.used_since_weighed is not None:
        held = max(held - supply.used_since_weighed.si, 0.0)
    density = held / volume
    return density if density <= LIQUID or supply.withdrawal == "bulk" else None


def cylinder_pressure(temperature: float, density: float) -> float:
    """Pressure [Pa, abs] in a rigid cylinder at a temperature [K] and a mean density [kg/m3].

    Liquid packed beyond the equation's limit gives that limit, a lower bound; gas thinner than
    its least pressure is taken as ideal.

    Raises
    ------
    methodlint.fluids.validity.OutOfRange
        If there is no model at this temperature.
    """
    limits = co2.FALLBACK_VALIDITY
    limits.temperature.require(temperature)
    ideal = density * _GAS_CONSTANT * temperature / co2.MOLAR_MASS
    if ideal < limits.pressure.lower:
        return ideal
    try:
        return float(co2.pressure_at_density(temperature, density))
    except OutOfRange:
        return limits.pressure.upper if density > co2.CRITICAL_DENSITY else ideal


def temperature_at_pressure(density: float, pressure: float) -> float | None:
    """Temperature [K] at which a cylinder of this mean density [kg/m3] reaches a pressure [Pa].

    Returns
    -------
    float or None
        None if it does not between -40 and 100 degC.
    """

    def excess(temperature: float) -> float:
        return cylinder_pressure(temperature, density) - pressure

    low, high = _COLDEST, _WARMEST
    if excess(low) > 0.0 or excess(high) < 0.0:
        return None
    for _ in range(30):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if excess(middle) < 0.0 else (low, middle)
    return 0.5 * (low + high)


def store_pressure(supply: Supply, temperature: float) -> float | None:
    """Pressure [Pa, abs] in the store at a temperature [K].

    Returns
    -------
    float or None
        Saturation pressure while there is liquid; above the critical temperature, or with gas
        alone, that of the fill, and None if the fill is not known.
    """
    density = mean_density(supply)
    if temperature < co2.CRITICAL_TEMPERATURE:
        saturation = float(co2.saturation_pressure(temperature))
        gas_alone = density is not None and density < float(
            co2.saturated_vapour_density(temperature)
        )
        return cylinder_pressure(temperature, density) if gas_alone and density else saturation
    return None if density is None else cylinder_pressure(temperature, density)


def pressure_needed(head_temperature: float, loss: float) -> float:
    """Pressure [Pa, abs] that the store must have so that nothing boils in the head [K]."""
    return float(co2.saturation_pressure(head_temperature)) + SUBCOOLING + loss


def store_temperature_needed(head_temperature: float, loss: float) -> float | None:
    """Store temperature [K] that gives the head its pressure; None above the critical point."""
    pressure = pressure_needed(head_temperature, loss)
    if pressure >= co2.CRITICAL_PRESSURE:
        return None
    return float(co2.saturation_temperature(pressure))


def head_temperature_needed(store: float, loss: float) -> float | None:
    """Head temperature [K] below which nothing boils with a store pressure [Pa]."""
    pressure = store - loss - SUBCOOLING
    if not co2.TRIPLE_PRESSURE < pressure < co2.CRITICAL_PRESSURE:
        return None
    return float(co2.saturation_temperature(pressure))


def gas_alone(supply: Supply) -> bool:
    """Whether a store is known to hold no liquid at its expected temperature."""
    store = store_temperature(supply)
    if store is None:
        return False
    if store.expected >= co2.CRITICAL_TEMPERATURE:
        return True
    density = mean_density(supply)
    return density is not None and density < float(co2.saturated_vapour_density(store.expected))
