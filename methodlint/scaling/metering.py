"""Set shares that mean the same composition on pumps that meter differently."""

from __future__ import annotations

from methodlint.hydraulics.metering import mass_fraction, share_for_mass_fraction
from methodlint.rehearsal.plan.run_plan import AIR_PRESSURE, AMBIENT, RunPlan
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = [
    "flow_for_same_mass",
    "mass_fraction",
    "metering_differs",
    "modifier_density_of",
    "share_for_mass_fraction",
]

_SAME_HEAD = 0.5
"""Heads this close [K] give CO2 the same density within 0.5 % (1 %/K at 10 degC and
50 bar: Span and Wagner 1996)."""


def flow_for_same_mass(share: float, co2_density: float, target_co2_density: float) -> float:
    """Set flow over set flow that delivers the same mass of both [-].

    Parameters
    ----------
    share
        Set share of modifier on the source [-].
    co2_density, target_co2_density
        Density behind a set millilitre of CO2 on both systems [kg/m3].
    """
    return share + (1.0 - share) * co2_density / target_co2_density


def metering_differs(one: RunPlan, two: RunPlan) -> bool:
    """Whether the pumps turn the same setting into different masses by design."""
    if one.metering != two.metering:
        return "volume" in (one.metering, two.metering)
    apart = abs(one.head_temperature - two.head_temperature)
    return one.metering == "volume" and apart > _SAME_HEAD


def modifier_density_of(run: Rehearsal) -> float:
    """Density of the modifier of a run at room temperature [kg/m3]; 800 without a modifier."""
    if not run.plan.modifier_name:
        return 800.0
    return float(run.fluid.modifier_density(AMBIENT, AIR_PRESSURE))
