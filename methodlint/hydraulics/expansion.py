"""Cold at the regulator, and the heat that takes the stream back to a set temperature."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2 import properties as co2

__all__ = ["ATMOSPHERE", "ExpandedLiquid", "RegulatorHeat", "regulator_heats"]

FloatArray = npt.NDArray[np.float64]

ATMOSPHERE = 101325.0
"""Standard atmosphere [Pa]."""


@dataclass(frozen=True)
class ExpandedLiquid:
    """Liquid that leaves the regulator together with CO2.

    Attributes
    ----------
    mass_flow : float
        [kg/s].
    heat_capacity : float
        Of the liquid [J/(kg K)].
    """

    mass_flow: float
    heat_capacity: float


@dataclass(frozen=True)
class RegulatorHeat:
    """What happens at the regulator.

    Attributes
    ----------
    end_temperature : float
        CO2 alone after isenthalpic expansion [K]: the coldest the stream can get, since liquid
        modifier brings warmth along.
    solid : bool
        Solid CO2 forms from CO2 alone.
    mixed_end_temperature : float
        The same with the warmth the liquids give off down to it [K]; heats of mixing and what
        CO2 stays dissolved are left out.
    carbon_dioxide : float
        To bring CO2 to the set temperature as gas [W]; never below 0.
    liquid : float
        To bring liquids to the set temperature [W]; negative when they arrive warmer.
    """

    end_temperature: float
    solid: bool
    mixed_end_temperature: float
    carbon_dioxide: float
    liquid: float

    @property
    def total(self) -> float:
        """Heat the stream needs [W]; 0 where it arrives with enough."""
        return max(self.carbon_dioxide + self.liquid, 0.0)


def regulator_heats(
    temperature: FloatArray,
    pressure: FloatArray,
    co2_mass_flow: FloatArray,
    set_temperature: FloatArray,
    liquids: Sequence[tuple[ExpandedLiquid, ...]],
    *,
    end_pressure: float = ATMOSPHERE,
) -> list[RegulatorHeat]:
    """Heat balances of many expansions to one pressure; heats of mixing are left out.

    Parameters
    ----------
    temperature, pressure : ndarray, (N,)
        Ahead of the regulator [K], [Pa, abs].
    co2_mass_flow : ndarray, (N,)
        [kg/s].
    set_temperature : ndarray, (N,)
        To which the stream shall come back [K].
    liquids : sequence of tuple of ExpandedLiquid, N of them
        Modifier and makeup that come along with each, as liquids.
    end_pressure : float, optional
        Downstream of the regulator [Pa, abs].

    Raises
    ------
    methodlint.fluids.validity.OutOfRange
        If a state lies where there is no model.
    """
    end = co2.isenthalpic_end(temperature, pressure, np.full(temperature.shape, end_pressure))
    before = co2.enthalpy(temperature, pressure)
    after = co2.enthalpy(set_temperature, np.full(temperature.shape, end_pressure))
    capacity = np.array([sum(p.mass_flow * p.heat_capacity for p in parts) for parts in liquids])
    mixed = _mixed_ends(before, temperature, end.temperature, co2_mass_flow, capacity, end_pressure)
    warmed = np.maximum(co2_mass_flow * (after - before), 0.0)
    return [
        RegulatorHeat(
            end_temperature=float(end.temperature[k]),
            solid=bool(end.solid[k]),
            mixed_end_temperature=float(mixed[k]),
            carbon_dioxide=float(warmed[k]),
            liquid=float(capacity[k] * (set_temperature[k] - temperature[k])),
        )
        for k in range(temperature.size)
    ]


def _mixed_ends(
    enthalpy: FloatArray,
    temperature: FloatArray,
    coldest: FloatArray,
    co2_mass_flow: FloatArray,
    capacity: FloatArray,
    end_pressure: float,
) -> FloatArray:
    carried = capacity != 0.0
    found = np.where(carried & (co2_mass_flow <= 0.0), temperature, coldest)
    open_ends = np.flatnonzero(carried & (co2_mass_flow > 0.0) & (coldest < temperature))
    if not open_ends.size:
        return found
    enthalpy, temperature, coldest = (
        values[open_ends] for values in (enthalpy, temperature, coldest)
    )
    ratio = capacity[open_ends] / co2_mass_flow[open_ends]
    # no liquid heats CO2 beyond its own temperature
    most = co2.enthalpy(temperature, np.full(temperature.shape, end_pressure))

    def reached(trial: FloatArray) -> FloatArray:
        at = np.minimum(enthalpy + ratio * (temperature - trial), most)
        return co2.temperature_from_enthalpy(at, np.full(at.shape, end_pressure))

    # on a boiling or sublimation line warmth goes into vapour and the temperature stays
    moves = reached(coldest) - coldest >= 0.01
    low, high = coldest, np.where(moves, temperature, coldest)
    while (wide := high - low > 0.05).any():
        middle = 0.5 * (low + high)
        rises = reached(middle) > middle
        low, high = np.where(wide & rises, middle, low), np.where(wide & ~rises, middle, high)
    found[open_ends] = 0.5 * (low + high)
    return found
