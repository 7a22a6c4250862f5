"""CO2 in the room: steady from vents, and after the release of everything connected."""

from __future__ import annotations

import math

from methodlint.documents.kinds.room import Room
from methodlint.documents.kinds.supply import Supply
from methodlint.documents.loading import Loaded

GAS_DENSITY = 1.839
"""CO2 at 20 degC and 1 atm [kg/m3] (Span and Wagner 1996)."""

ATMOSPHERE = 101325.0
"""Pressure of the air where the card gives none [Pa]."""

OUTDOOR_CO2 = 420e-6
"""Volume fraction outdoors where the document gives none; common practice."""

OXYGEN_IN_AIR = 0.209

OXYGEN_LEAST = 0.195
"""Volume fraction of oxygen below which a place is left (29 CFR 1910.134 and .146)."""

AT_ONCE_DANGEROUS = 0.04
"""Volume fraction of CO2 immediately dangerous to life or health (NIOSH 1994, 40 000 ppm)."""

WORTH_A_CAUTION = 0.005
"""Volume fraction of CO2 after a release that asks for care: 5000 ppm, the usual 8 h limit."""


def steady_fraction(mass_flow: float, volume: float, air_changes: float, outdoor: float) -> float:
    """Volume fraction of CO2 in a well-mixed room with a steady vent.

    Parameters
    ----------
    mass_flow
        CO2 vented into the room [kg/s].
    volume
        Of the room [m3].
    air_changes
        Fresh air per room volume [1/s].
    outdoor
        Volume fraction of CO2 outdoors [-].
    """
    if air_changes <= 0.0 or volume <= 0.0:
        return 1.0
    return min(outdoor + mass_flow / GAS_DENSITY / (volume * air_changes), 1.0)


def release_fraction(mass: float, volume: float) -> float:
    """Volume fraction of CO2 after a release that mixes with and displaces the room's air."""
    if volume <= 0.0:
        return 1.0 if mass > 0.0 else 0.0
    return 1.0 - math.exp(-mass / (GAS_DENSITY * volume))


def mass_for_fraction(fraction: float, volume: float) -> float:
    """Mass of CO2 [kg] whose release reaches a volume fraction in a room [m3]."""
    return -math.log(1.0 - fraction) * GAS_DENSITY * volume


def air_volume(room: Room) -> float | None:
    """Air of a room [m3 at 1 atm]: high up there is less of it to mix with."""
    if room.volume is None:
        return None
    pressure = room.air_pressure.si if room.air_pressure is not None else ATMOSPHERE
    return room.volume.si * pressure / ATMOSPHERE


def effective_volume(room: Loaded[Room]) -> float | None:
    """Air [m3 at 1 atm] that a release mixes with: half where gas pools below ground."""
    volume = air_volume(room.model)
    return None if volume is None else volume * (0.5 if room.model.below_ground else 1.0)


def flow_for_fraction(fraction: float, volume: float, air_changes: float, outdoor: float) -> float:
    """CO2 mass flow [kg/s] that holds a room at a volume fraction; see `steady_fraction`."""
    return max(fraction - outdoor, 0.0) * GAS_DENSITY * volume * air_changes


def air_changes_for_fraction(
    fraction: float, mass_flow: float, volume: float, outdoor: float
) -> float:
    """Fresh air per room volume [1/s] that keeps a room at a volume fraction; inf if none does."""
    if fraction <= outdoor or volume <= 0.0:
        return math.inf
    return mass_flow / GAS_DENSITY / (volume * (fraction - outdoor))


def oxygen_left(fraction: float) -> float:
    """Volume fraction of oxygen in air of which a fraction is another gas."""
    return OXYGEN_IN_AIR * (1.0 - fraction)


def foreign_gas_at_oxygen(oxygen: float = OXYGEN_LEAST) -> float:
    """Volume fraction of another gas at which the air has this much oxygen left."""
    return 1.0 - oxygen / OXYGEN_IN_AIR


def oxygen_with_vented_gas(volume_flow: float, volume: float, air_changes: float) -> float:
    """Volume fraction of oxygen in a well-mixed room into which an inert gas is vented.

    Parameters
    ----------
    volume_flow
        Of the gas at room conditions [m3/s].
    volume, air_changes
        Of the room [m3]; fresh air per room volume [1/s].
    """
    fresh = volume * air_changes
    if volume_flow <= 0.0:
        return OXYGEN_IN_AIR
    return OXYGEN_IN_AIR * fresh / (fresh + volume_flow) if fresh > 0.0 else 0.0


def released_into_room(supply: Supply) -> float | None:
    """Mass of CO2 [kg] that a break can let into the room.

    Everything connected counts, a bank or a bulk tank whole: its fill when fresh, or what is in
    it now if that is more. Nothing counts of a store outside, or in an exhausted cabinet, behind
    a declared excess-flow valve or monitor-operated shut-off ahead of the wall.

    Returns
    -------
    float or None
        None if the place, or every mass, is not given.
    """
    if supply.place is None:
        return None
    stopped = supply.flow_stop in ("excess-flow valve", "monitor-operated shut-off")
    if supply.place == "outside" and stopped and supply.flow_stop_place == "upstream of the wall":
        return 0.0
    if supply.place == "exhausted cabinet" and stopped:
        return 0.0
    masses = [mass.si for mass in (supply.full_mass, supply.net_mass) if mass is not None]
    return max(masses, default=None)
