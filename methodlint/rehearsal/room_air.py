"""CO2 in the room: steady from vents, and after the release of everything connected."""

from __future__ import annotations

import math
from typing import cast

from methodlint.documents.kinds.room import Room
from methodlint.documents.loading import Loaded

GAS_DENSITY = 1.839
"""CO2 at 20 degC and 1 atm [kg/m3] (Span and Wagner 1996)."""

OUTDOOR_CO2 = 420e-6
"""Volume fraction outdoors where the document gives none; common practice."""

OXYGEN_IN_AIR = 0.209


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
    return 1.0 - math.exp(-mass / (GAS_DENSITY * volume))


def mass_for_fraction(fraction: float, volume: float) -> float:
    """Mass of CO2 [kg] whose release reaches a volume fraction in a room [m3]."""
    return -math.log(1.0 - fraction) * GAS_DENSITY * volume


def effective_volume(room: Loaded) -> float | None:
    """Volume [m3] that a release mixes with: half where gas pools below ground."""
    typed = cast(Room, room.model)
    if typed.volume is None:
        return None
    return typed.volume.si * (0.5 if typed.below_ground else 1.0)
