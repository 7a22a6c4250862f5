"""How much CO2 a cylinder gives, and during which injection its liquid ends."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from methodlint.documents.contents.cylinder_fill import can_hold, total_capacity
from methodlint.documents.kinds.supply import Supply, TemperatureSpan
from methodlint.documents.loading import Loaded
from methodlint.fluids.co2 import properties as co2
from methodlint.rehearsal.batch.co2_draw import Co2Draw
from methodlint.rehearsal.batch.lines import Batch

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
    """CO2 that can be drawn before a dip tube meets vapour or a condensing pump starves [kg].

    Attributes
    ----------
    expected, least, most
        Usable mass and its range over temperature and weighing tolerances.
    vapour
        What stays behind as vapour at the expected temperature.
    weighing
        Half width of the weighed mass.
    store
        Temperatures that the range was taken over.
    """

    expected: float
    least: float
    most: float
    vapour: float
    weighing: float
    store: StoreTemperature


@dataclass(frozen=True, slots=True)
class CylinderEnd:
    """When the liquid ends.

    Attributes
    ----------
    expected_first, expected_last
        Injections between which it is expected: the store at its expected temperature, scale
        and pump within their tolerances. 0 means before the first injection; None if the whole
        sequence is served.
    not_before
        Last injection that is safe on the unfavourable side of all tolerances, 0 if none is;
        None if the whole sequence is served even then.
    short
        Expected shortfall [kg]; negative if something is left.
    short_at_worst
        Shortfall on the unfavourable side [kg].
    clock, clock_last
        Start of `expected_first` and end of `expected_last` [s] from the start of the sequence.
    """

    usable: UsableLiquid
    demand: float
    expected_first: int | None
    expected_last: int | None
    not_before: int | None
    short: float
    short_at_worst: float
    clock: float | None
    clock_last: float | None


def store_temperature(supply: Supply) -> StoreTemperature | None:
    """Read the store temperature with its span or tolerance; None if it is not given."""
    given = supply.store_temperature
    if given is None:
        return None
    if isinstance(given, TemperatureSpan):
        low, high = given.lowest.si, given.highest.si
        return StoreTemperature(low, (low + high) / 2.0, high)
    tolerance = given.tolerance if given.tolerance is not None else STORE_TOLERANCE
    lowest = max(given.si - tolerance, co2.TRIPLE_TEMPERATURE)
    return StoreTemperature(lowest, given.si, given.si + tolerance)


def draws_vapour(supply: Supply) -> bool | None:
    """Whether vapour is drawn from the cylinder; None if the card does not say."""
    if supply.withdrawal is not None:
        return supply.withdrawal == "vapour"
    return None if supply.dip_tube is None else not supply.dip_tube


def vapour_left(
    supply: Supply, temperature: float, inlet_pressure: float | None = None
) -> float | None:
    """Mass of CO2 [kg] that fills the connected cylinders as vapour at the end.

    Parameters
    ----------
    temperature
        Of the store [K].
    inlet_pressure
        Lowest pressure [Pa, abs] that a condensing pump still draws at; None for a dip tube,
        where the vapour left is saturated.

    Returns
    -------
    float or None
        None if the water capacity is not given.
    """
    volume = total_capacity(supply)
    if volume is None:
        return None
    if temperature >= _HIGHEST_LIQUID:
        saturated = co2.CRITICAL_DENSITY
    else:
        saturated = float(co2.saturated_vapour_density(temperature))
    if inlet_pressure is None:
        return volume * saturated
    if temperature < co2.CRITICAL_TEMPERATURE and inlet_pressure >= float(
        co2.saturation_pressure(temperature)
    ):
        return volume * saturated
    return volume * float(co2.density(temperature, inlet_pressure))


def usable_liquid(
    supply: Supply, heel: float = 0.0, inlet_pressure: float | None = None
) -> UsableLiquid | None:
    """CO2 that the connected cylinders still give.

    Parameters
    ----------
    supply
        The supply card.
    heel
        Mass that the lab leaves in the cylinder if the card names none [kg].
    inlet_pressure
        See `vapour_left`.

    Returns
    -------
    UsableLiquid or None
        None if mass, water capacity or store temperature are not given, or if the cylinders
        cannot hold that mass.
    """
    store = store_temperature(supply)
    if store is None or supply.net_mass is None or supply.water_capacity is None:
        return None
    if not can_hold(supply, supply.net_mass.si):  # said by supply.overfilled
        return None
    kept = supply.heel.si if supply.heel is not None else heel
    mass = supply.net_mass.si
    if supply.used_since_weighed is not None:
        mass -= supply.used_since_weighed.si
    weighing = supply.net_mass.tolerance
    weighing = WEIGHING_TOLERANCE if weighing is None else weighing
    coolest, vapour, warmest = (
        vapour_left(supply, t, inlet_pressure) or 0.0
        for t in (store.lowest, store.expected, store.highest)
    )
    if inlet_pressure is not None:  # colder gas of one pressure is denser
        coolest, warmest = warmest, coolest
    return UsableLiquid(
        expected=mass - vapour - kept,
        least=mass - weighing - max(warmest, vapour) - kept,
        most=mass + weighing - min(coolest, vapour) - kept,
        vapour=vapour,
        weighing=weighing,
        store=store,
    )


def cylinder_end(
    supply: Loaded[Supply], batch: Batch, heel: float = 0.0, inlet_pressure: float | None = None
) -> CylinderEnd | None:
    """Find the injections during which the CO2 of a supply ends.

    Returns
    -------
    CylinderEnd or None
        None if the usable mass or the demand is not known.
    """
    usable = usable_liquid(supply.model, heel, inlet_pressure)
    if usable is None or batch.missing:
        return None
    return liquid_end(usable, batch.co2_draw)


def liquid_end(usable: UsableLiquid, draw: Co2Draw, before: float = 0.0) -> CylinderEnd:
    """Find the injections during which what can be drawn from a cylinder ends.

    Parameters
    ----------
    usable
        What the cylinder gives in all.
    draw
        What the sequence takes.
    before
        What other sequences have taken from the same cylinder before this one [kg].
    """
    metering = METERING_TOLERANCE + draw.band
    if before:
        usable = replace(
            usable,
            expected=usable.expected - before,
            least=usable.least - before * (1.0 + metering),
            most=usable.most - before * (1.0 - metering),
        )
    demand = draw.demand
    # Scale and pump err independently of each other.
    spread = math.hypot(usable.weighing, metering * (max(usable.expected, 0.0) + before))
    first = last = None
    if demand > usable.expected:
        first = draw.injection_when_used(usable.expected - spread)
        last = draw.injection_when_used(usable.expected + spread)
        last = len(draw.starts) if last is None else last
    early = draw.injection_when_used(usable.least / (1.0 + metering))
    return CylinderEnd(
        usable=usable,
        demand=demand,
        expected_first=first,
        expected_last=last,
        not_before=None if early is None else max(early - 1, 0),
        short=demand - usable.expected,
        short_at_worst=demand * (1.0 + metering) - usable.least,
        clock=draw.clock_of(first),
        clock_last=draw.clock_of(None if last is None else last + 1),
    )
