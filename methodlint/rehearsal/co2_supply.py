"""How much CO2 a cylinder gives, and during which injection its liquid ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from methodlint.documents.kinds.supply import Supply, TemperatureSpan
from methodlint.documents.loading import Loaded
from methodlint.fluids import co2
from methodlint.rehearsal.batch import Batch

STORE_TOLERANCE = 1.0
"""Half width of the store temperature [K] when the document gives none; common practice."""

WEIGHING_TOLERANCE = 0.05
"""Half width of a cylinder's net mass [kg] when the document gives none; common practice."""

METERING_TOLERANCE = 0.01
"""Relative half width of the mass a CO2 pump delivers; common practice, no source."""

_HIGHEST_LIQUID = 304.0


@dataclass(frozen=True, slots=True)
class StoreTemperature:
    """Lowest, expected and highest temperature of the store [K]."""

    lowest: float
    expected: float
    highest: float


@dataclass(frozen=True, slots=True)
class UsableLiquid:
    """Liquid that can be drawn before the vapour reaches the dip tube [kg].

    Attributes
    ----------
    expected, least, most
        Usable mass and its range over temperature and weighing tolerances.
    vapour
        What stays behind as vapour at the expected temperature.
    """

    expected: float
    least: float
    most: float
    vapour: float


@dataclass(frozen=True, slots=True)
class CylinderEnd:
    """When the liquid ends.

    Attributes
    ----------
    expected_first, expected_last
        Injections between which it is expected, one either side of the central figure.
    not_before
        Last injection that is safe on the unfavourable side of all tolerances.
    short
        Expected shortfall [kg]; negative if something is left.
    short_at_worst
        Shortfall on the unfavourable side [kg].
    """

    usable: UsableLiquid
    demand: float
    expected_first: int | None
    expected_last: int | None
    not_before: int | None
    short: float
    short_at_worst: float
    clock: float | None


def store_temperature(supply: Supply) -> StoreTemperature | None:
    """Read the store temperature with its span or tolerance; None if it is not given."""
    given = supply.store_temperature
    if given is None:
        return None
    if isinstance(given, TemperatureSpan):
        low, high = given.lowest.si, given.highest.si
        return StoreTemperature(low, (low + high) / 2.0, high)
    tolerance = given.tolerance if given.tolerance is not None else STORE_TOLERANCE
    return StoreTemperature(given.si - tolerance, given.si, given.si + tolerance)


def vapour_left(supply: Supply, temperature: float) -> float | None:
    """Mass of CO2 [kg] that fills the connected cylinders as vapour when the liquid is gone.

    Returns
    -------
    float or None
        None if the water capacity is not given.
    """
    if supply.water_capacity is None:
        return None
    volume = supply.water_capacity.si * max(supply.cylinders, 1)
    if temperature >= _HIGHEST_LIQUID:
        return volume * co2.CRITICAL_DENSITY
    return volume * float(co2.saturated_vapour_density(temperature))


def usable_liquid(supply: Supply, heel: float = 0.0) -> UsableLiquid | None:
    """Liquid that the connected cylinders still give.

    Parameters
    ----------
    supply
        The supply card.
    heel
        Mass that the lab leaves in the cylinder if the card names none [kg].

    Returns
    -------
    UsableLiquid or None
        None if mass, water capacity or store temperature are not given.
    """
    store = store_temperature(supply)
    if store is None or supply.net_mass is None or supply.water_capacity is None:
        return None
    kept = supply.heel.si if supply.heel is not None else heel
    mass = supply.net_mass.si
    if supply.used_since_weighed is not None:
        mass -= supply.used_since_weighed.si
    weighing = supply.net_mass.tolerance
    weighing = WEIGHING_TOLERANCE if weighing is None else weighing
    vapour = {
        t: vapour_left(supply, t) or 0.0 for t in (store.lowest, store.expected, store.highest)
    }
    expected = mass - vapour[store.expected] - kept
    return UsableLiquid(
        expected=expected,
        least=mass - weighing - vapour[store.highest] - kept,
        most=mass + weighing - vapour[store.lowest] - kept,
        vapour=vapour[store.expected],
    )


def cylinder_end(supply: Loaded, batch: Batch, heel: float = 0.0) -> CylinderEnd | None:
    """Find the injections during which the liquid of a supply ends.

    Returns
    -------
    CylinderEnd or None
        None if the usable mass or the demand is not known.
    """
    usable = usable_liquid(cast(Supply, supply.model), heel)
    if usable is None or batch.missing:
        return None
    demand = batch.co2_demand
    early = batch.injection_when_used(usable.least / (1.0 + METERING_TOLERANCE))
    central = batch.injection_when_used(usable.expected)
    clock = None
    if central is not None and batch.injection_starts:
        clock = batch.injection_starts[max(central - 1, 0)][1]
    return CylinderEnd(
        usable=usable,
        demand=demand,
        expected_first=central,
        expected_last=None if central is None else min(central + 1, batch.injections),
        not_before=None if early is None else max(early - 1, 0),
        short=demand - usable.expected,
        short_at_worst=demand * (1.0 + METERING_TOLERANCE) - usable.least,
        clock=clock,
    )
