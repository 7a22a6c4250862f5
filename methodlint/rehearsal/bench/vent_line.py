"""Pressure that expanded CO2 loses in the line that vents it."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass

from methodlint.fluids.co2 import properties as co2
from methodlint.hydraulics import friction_laminar_poiseuille, friction_turbulent_blasius_1913
from methodlint.hydraulics.expansion import ATMOSPHERE
from methodlint.rehearsal.bench.room_air import GAS_DENSITY
from methodlint.rehearsal.plan.run_plan import AMBIENT
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["VentLoss", "gas_litres_per_minute", "vent_loss"]

_TURBULENT_FROM = 2100.0
"""The higher, turbulent friction is taken throughout the transition."""

_HEAT_CAPACITY_RATIO = 1.30
"""Of CO2 gas at room temperature."""


@dataclass(frozen=True, slots=True)
class VentLoss:
    """Gas in a vent line.

    Attributes
    ----------
    loss
        Pressure at its inlet above that of the air [Pa].
    gas_flow
        At 20 degC and 1 atm [m3/s].
    reynolds
        Reynolds number [-].
    outlet_mach
        Speed at the open end over the speed of sound [-], were the end at the pressure of the air.
    """

    loss: float
    gas_flow: float
    reynolds: float
    outlet_mach: float

    @property
    def choked(self) -> bool:
        """Whether gas cannot leave this fast: its pressure stays up at the end, `loss` is too low.

        Isothermal flow in a tube chokes where the Mach number is 1/sqrt(heat capacity ratio).
        """
        return self.outlet_mach > 1.0 / math.sqrt(_HEAT_CAPACITY_RATIO)


def vent_loss(mass_flow: float, length: float, bore: float) -> VentLoss:
    """Loss of CO2 gas in a smooth open tube at 20 degC.

    Isothermal flow of an ideal gas: the difference of the squares of the pressures is
    f (L/d) G^2 R T / M, with mass velocity G; the term for the gain in speed is included.

    Parameters
    ----------
    mass_flow
        CO2 [kg/s], all instruments on the line.
    length, bore
        Of the tube [m], both above 0.

    Raises
    ------
    ValueError
        If length or bore are not above 0.

    Source
    ------
    Isothermal compressible pipe flow: textbooks of fluid mechanics, for example Perry's Chemical
    Engineers' Handbook, 8th edition, section 6.
    """
    if length <= 0.0 or bore <= 0.0:
        raise ValueError("a vent line needs a length and a bore above 0")
    if mass_flow <= 0.0:
        return VentLoss(0.0, 0.0, 0.0, 0.0)
    viscosity = _gas_viscosity()
    velocity = mass_flow / (math.pi / 4.0 * bore**2)
    reynolds = velocity * bore / viscosity
    laminar = float(friction_laminar_poiseuille.friction_factor(reynolds))
    friction = laminar
    if reynolds > _TURBULENT_FROM:
        friction = max(laminar, float(friction_turbulent_blasius_1913.friction_factor(reynolds)))
    # R T / M of the ideal gas, from the density at one atmosphere
    ratio = ATMOSPHERE / GAS_DENSITY
    term = velocity**2 * ratio
    inlet = math.sqrt(ATMOSPHERE**2 + term * friction * length / bore)
    for _ in range(20):
        speeding = 2.0 * math.log(inlet / ATMOSPHERE)
        inlet = math.sqrt(ATMOSPHERE**2 + term * (friction * length / bore + speeding))
    sound = math.sqrt(_HEAT_CAPACITY_RATIO * ratio)
    return VentLoss(
        loss=inlet - ATMOSPHERE,
        gas_flow=mass_flow / GAS_DENSITY,
        reynolds=reynolds,
        outlet_mach=velocity / GAS_DENSITY / sound,
    )


@functools.cache
def _gas_viscosity() -> float:
    return float(co2.viscosity(AMBIENT, ATMOSPHERE))


def gas_litres_per_minute(run: Rehearsal | None) -> float | None:
    """Highest flow of CO2 gas over a cycle [L/min] at 20 degC and 1 atm.

    Parameters
    ----------
    run
        A rehearsal; None or one that lacks figures gives None.
    """
    if run is None or not run.metered:
        return None
    return float(run.co2_mass_flow.max()) / GAS_DENSITY * 6e4
