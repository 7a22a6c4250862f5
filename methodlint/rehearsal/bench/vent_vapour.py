"""Solvent vapour that vented gas carries into a room."""

from __future__ import annotations

from collections.abc import Mapping

from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.liquids.known import LiquidRecord

GAS_CONSTANT = 8.314462618
"""[J/(mol K)], exact in the SI of 2019."""

STANDARD_PRESSURE = 101325.0


def saturated_vapour_flow(
    gas_mass_flow: float, vapour_pressure: float, pressure: float = STANDARD_PRESSURE
) -> float:
    """Vapour that CO2 carries when it leaves saturated [mol/s].

    Parameters
    ----------
    gas_mass_flow
        CO2 [kg/s].
    vapour_pressure
        Of the liquid at the outlet [Pa].
    pressure
        At the outlet [Pa, abs].

    Returns
    -------
    float
        Infinite if the liquid boils there.
    """
    if vapour_pressure >= pressure:
        return float("inf")
    gas = gas_mass_flow / co2.MOLAR_MASS
    return gas * vapour_pressure / (pressure - vapour_pressure)


def liquid_flow_as_vapour(volume_flow: float, density: float, molar_mass: float) -> float:
    """Vapour when all of a liquid flow evaporates [mol/s]."""
    return volume_flow * density / molar_mass


def steady_vapour_fraction(
    vapour_flow: float,
    volume: float,
    air_changes: float,
    temperature: float,
    pressure: float = STANDARD_PRESSURE,
) -> float:
    """Volume fraction of a vapour in a well-mixed room with a steady vent.

    Parameters
    ----------
    vapour_flow
        [mol/s].
    volume, air_changes
        Of the room [m3]; fresh air per room volume [1/s].
    temperature, pressure
        Of the air [K], [Pa, abs].
    """
    if air_changes <= 0.0 or volume <= 0.0:
        return 1.0 if vapour_flow > 0.0 else 0.0
    gas = vapour_flow * GAS_CONSTANT * temperature / pressure
    return min(gas / (volume * air_changes), 1.0)


def vapour_flows(
    flows: Mapping[str, tuple[LiquidRecord, float]],
    gas_mass_flow: float,
    temperature: float,
    *,
    all_evaporates: bool,
) -> dict[str, float | None]:
    """Vapour of each liquid that leaves with the gas [mol/s].

    Parameters
    ----------
    flows
        Liquid and volume flow [m3/s] by name.
    gas_mass_flow
        CO2 [kg/s].
    temperature
        At the outlet [K]; the vapour pressure of the pure liquid is taken, an upper bound
        for a part of a blend.
    all_evaporates
        The outlet is that of a hot source, where no liquid is left.

    Returns
    -------
    dict
        By name; None where the liquid's density or vapour pressure is not known at this
        temperature. Never more than the liquid that flows.
    """
    found: dict[str, float | None] = {}
    for name, (liquid, volume_flow) in flows.items():
        if liquid.density is None or not liquid.density.covers(temperature):
            found[name] = None
            continue
        most = liquid_flow_as_vapour(
            volume_flow, float(liquid.density(temperature)), liquid.molar_mass
        )
        if all_evaporates:
            found[name] = most
            continue
        if liquid.vapour_pressure is None or not liquid.vapour_pressure.covers(temperature):
            found[name] = None
            continue
        pressure = float(liquid.vapour_pressure(temperature))
        found[name] = min(saturated_vapour_flow(gas_mass_flow, pressure), most)
    return found


_OXYGEN_IN_AIR = 0.209


def flammable_dilution(
    vapours: Mapping[str, float], limits: Mapping[str, float], gas_mass_flow: float
) -> tuple[float, float] | None:
    """Share of vented gas in air at which it reaches its lower flammable limit, and oxygen there.

    Parameters
    ----------
    vapours
        Vapour by liquid [mol/s].
    limits
        Lower flammable limit by liquid, volume fraction in air; one without burns not.
    gas_mass_flow
        CO2 [kg/s].

    Returns
    -------
    tuple of float or None
        Both volume fractions; None where the gas holds less vapour than the limit, undiluted.

    Source
    ------
    Mixture rule of Le Chatelier (1891), any text on flammability.
    """
    total = gas_mass_flow / co2.MOLAR_MASS + sum(vapours.values())
    # Each vapour takes its part of the limit: the sum reaches 1 where the mixture does.
    reach = sum(flow / total / limits[name] for name, flow in vapours.items() if name in limits)
    if total <= 0.0 or reach <= 1.0:
        return None
    share = 1.0 / reach
    return share, _OXYGEN_IN_AIR * (1.0 - share)
