"""Cold at the regulator, and the heat that takes the stream back to a set temperature."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.fluids import co2

__all__ = ["ATMOSPHERE", "ExpandedLiquid", "RegulatorHeat", "regulator_heat"]

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
    enthalpy_of_vaporization : float or None
        [J/kg]; needed only where the liquid is to be evaporated.
    """

    mass_flow: float
    heat_capacity: float
    enthalpy_of_vaporization: float | None = None


@dataclass(frozen=True)
class RegulatorHeat:
    """What happens at the regulator.

    Attributes
    ----------
    end_temperature : float
        CO2 alone after isenthalpic expansion [K]: the coldest the stream can get, since liquid
        modifier brings warmth along.
    vapour_fraction : float
        Mass fraction of vapour in expanded CO2 alone [-].
    solid : bool
        Solid CO2 forms from CO2 alone.
    mixed_end_temperature : float
        The same with the warmth the liquids give off down to it [K]; heats of mixing and what
        CO2 stays dissolved are left out.
    carbon_dioxide : float
        To bring CO2 to the set temperature as gas [W]; never below 0.
    liquid : float
        To bring liquids to the set temperature [W]; negative when they arrive warmer.
    evaporation : float
        To evaporate the liquids [W]; 0 unless asked for.
    """

    end_temperature: float
    vapour_fraction: float
    solid: bool
    mixed_end_temperature: float
    carbon_dioxide: float
    liquid: float
    evaporation: float

    @property
    def total(self) -> float:
        """Heat the stream needs [W]; 0 where it arrives with enough."""
        return max(self.carbon_dioxide + self.liquid + self.evaporation, 0.0)


def regulator_heat(
    temperature: float,
    pressure: float,
    co2_mass_flow: float,
    set_temperature: float,
    liquids: tuple[ExpandedLiquid, ...] = (),
    evaporate: bool = False,
    end_pressure: float = ATMOSPHERE,
) -> RegulatorHeat:
    """Heat balance of the expansion; heats of mixing are left out.

    Parameters
    ----------
    temperature, pressure : float
        Ahead of the regulator [K], [Pa, abs].
    co2_mass_flow : float
        [kg/s].
    set_temperature : float
        To which the stream shall come back [K].
    liquids : tuple of ExpandedLiquid, optional
        Modifier and makeup.
    evaporate : bool, optional
        True where the liquids are to leave as vapour (a source that sprays them).
    end_pressure : float, optional
        Behind the regulator [Pa, abs].

    Raises
    ------
    ValueError
        If liquids are to be evaporated and one has no enthalpy of vaporization.
    methodlint.fluids.validity.OutOfRange
        If a state lies where there is no model.
    """
    end = co2.isenthalpic_end(temperature, pressure, end_pressure)
    before = float(co2.enthalpy(temperature, pressure))
    after = float(co2.enthalpy(set_temperature, end_pressure))
    liquid = sum(
        part.mass_flow * part.heat_capacity * (set_temperature - temperature) for part in liquids
    )
    evaporation = 0.0
    if evaporate:
        for part in liquids:
            if part.enthalpy_of_vaporization is None:
                raise ValueError("evaporating a liquid needs its enthalpy of vaporization")
            evaporation += part.mass_flow * part.enthalpy_of_vaporization
    return RegulatorHeat(
        end_temperature=float(end.temperature),
        vapour_fraction=float(end.vapour_fraction),
        solid=bool(end.solid),
        mixed_end_temperature=_mixed_end(
            before, temperature, float(end.temperature), co2_mass_flow, liquids, end_pressure
        ),
        carbon_dioxide=max(co2_mass_flow * (after - before), 0.0),
        liquid=liquid,
        evaporation=evaporation,
    )


def _mixed_end(
    enthalpy: float,
    temperature: float,
    coldest: float,
    co2_mass_flow: float,
    liquids: tuple[ExpandedLiquid, ...],
    end_pressure: float,
) -> float:
    capacity = sum(part.mass_flow * part.heat_capacity for part in liquids)
    if not capacity or co2_mass_flow <= 0.0 or coldest >= temperature:
        return temperature if capacity and co2_mass_flow <= 0.0 else coldest

    # no liquid heats CO2 beyond its own temperature
    most = float(co2.enthalpy(temperature, end_pressure))

    def reached(trial: float) -> float:
        given = capacity * (temperature - trial) / co2_mass_flow
        return float(co2.temperature_from_enthalpy(min(enthalpy + given, most), end_pressure))

    # on a boiling or sublimation line warmth goes into vapour and the temperature stays
    if reached(coldest) - coldest < 0.01:
        return coldest
    low, high = coldest, temperature
    while high - low > 0.05:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if reached(middle) > middle else (low, middle)
    return 0.5 * (low + high)
