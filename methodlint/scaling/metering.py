"""Set shares that mean the same composition on pumps that meter differently."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.metering import mass_fraction
from methodlint.rehearsal.rehearsal import Rehearsal
from methodlint.rehearsal.run_plan import AIR_PRESSURE, AMBIENT, RunPlan

FloatArray = npt.NDArray[np.float64]

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


def share_for_mass_fraction(
    w: npt.ArrayLike, modifier_density: npt.ArrayLike, co2_density: npt.ArrayLike
) -> FloatArray:
    """Share of the set volume flow that gives a mass fraction of modifier [-].

    Parameters
    ----------
    w
        Mass fraction of modifier [-].
    modifier_density
        At room temperature [kg/m3].
    co2_density
        That turns a set millilitre of CO2 into mass: in the head of a pump that meters volume,
        the booked one of a pump that meters mass [kg/m3].

    Source
    ------
    The inverse of `mass_fraction` (arithmetic).
    """
    w_ = np.asarray(w, dtype=np.float64)
    modifier = w_ / np.asarray(modifier_density, dtype=np.float64)
    carbon = (1.0 - w_) / np.asarray(co2_density, dtype=np.float64)
    return np.asarray(modifier / (modifier + carbon))


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
