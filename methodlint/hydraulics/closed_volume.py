"""Pressure in a volume closed at both ends and warmed: density stays, pressure climbs.

The walls are taken as rigid and hold-up as liquid-full, so the result is an upper bound.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2 import properties as co2
from methodlint.hydraulics.march import HIGHEST_MODEL_PRESSURE

__all__ = ["ClosedVolume", "warmed_carbon_dioxide", "warmed_liquid"]


@dataclass(frozen=True)
class ClosedVolume:
    """State of a closed volume after warming.

    Attributes
    ----------
    pressure : float
        [Pa, abs].
    density : float
        [kg/m3].
    at_least : bool
        True where the pressure is beyond the model: it is then a lower bound.
    """

    pressure: float
    density: float
    at_least: bool


@lru_cache(maxsize=4096)
def warmed_carbon_dioxide(
    closed_temperature: float, closed_pressure: float, temperature: float
) -> ClosedVolume:
    """Warm CO2 that was closed in.

    Parameters
    ----------
    closed_temperature, closed_pressure : float
        When the volume was closed [K], [Pa, abs].
    temperature : float
        To which it warms [K].

    Raises
    ------
    methodlint.fluids.validity.OutOfRange
        If a state lies where there is no model.
    """
    density = float(co2.density(closed_temperature, closed_pressure))
    if density > float(co2.density(temperature, HIGHEST_MODEL_PRESSURE)):
        return ClosedVolume(HIGHEST_MODEL_PRESSURE, density, at_least=True)
    return ClosedVolume(float(co2.pressure_at_density(temperature, density)), density, False)


def warmed_liquid(
    density_of: Callable[[float, float], npt.ArrayLike],
    closed_temperature: float,
    closed_pressure: float,
    temperature: float,
    highest_pressure: float = HIGHEST_MODEL_PRESSURE,
) -> ClosedVolume:
    """Warm a liquid or mixture that was closed in and stays one phase.

    Parameters
    ----------
    density_of : callable
        (T [K], P [Pa]) -> density [kg/m3], rising with pressure; for instance
        ``model.modifier_density`` or a mixture at fixed composition.
    closed_temperature, closed_pressure : float
        When the volume was closed [K], [Pa, abs].
    temperature : float
        To which it warms [K]; a colder one gives the closed pressure's lower end, never less
        than zero.
    highest_pressure : float, optional
        Where the search stops [Pa].
    """
    density = float(np.asarray(density_of(closed_temperature, closed_pressure)))
    low, high = 1.0e5, highest_pressure
    if float(np.asarray(density_of(temperature, high))) < density:
        return ClosedVolume(high, density, at_least=True)
    if float(np.asarray(density_of(temperature, low))) >= density:
        return ClosedVolume(low, density, at_least=False)
    # halving 700 bar to 10 Pa
    for _ in range(23):
        middle = 0.5 * (low + high)
        if float(np.asarray(density_of(temperature, middle))) < density:
            low = middle
        else:
            high = middle
    return ClosedVolume(0.5 * (low + high), density, at_least=False)
