"""Cooling of the mobile phase along a column: the adiabatic bound.

A bed exchanges little heat with its wall in the time the mobile phase needs to pass, so what it
loses in pressure it expands at constant enthalpy (friction heat included).  A thermostatted wall
makes the real fall smaller; this bound and the oven temperature bracket it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2 import saturation as co2_saturation
from methodlint.fluids.co2.constants import CRITICAL_PRESSURE, TRIPLE_PRESSURE
from methodlint.hydraulics.fluid_interface import ExpandingFluid, FloatArray
from methodlint.hydraulics.march import HIGHEST_MODEL_PRESSURE, March

__all__ = ["AdiabaticProfile", "adiabatic_faces", "temperature_along_column"]

_SETTLED_K = 3.0e-3
_MOST_SWEEPS = 30
_COLDEST = 263.15
"""Lower end of the tables of carbon dioxide [K]; a liquid hardly cools as it expands."""


@dataclass(frozen=True)
class AdiabaticProfile:
    """Temperatures of R rows if the beds exchange no heat.

    Attributes
    ----------
    temperature : ndarray, (R, S+1)
        At the faces of the slices [K]; given temperature ahead of the first bed, that of the
        last bed's outlet behind it.
    outlet : ndarray, (R,)
        Behind the last bed [K].
    change : ndarray, (R,)
        Outlet minus inlet [K]; negative when it cools.
    settled : ndarray of bool, (R,)
        False where the sweeps did not come to rest.
    """

    temperature: FloatArray
    outlet: FloatArray
    change: FloatArray
    settled: npt.NDArray[np.bool_]


def temperature_along_column(
    fluid: ExpandingFluid,
    march: March,
    w_modifier: npt.ArrayLike,
    inlet_temperature: npt.ArrayLike,
) -> AdiabaticProfile:
    """Follow the isenthalpic slope down the pressures of a march.

    Parameters
    ----------
    fluid : ExpandingFluid
        Mobile phase of the march.
    march : March
        Its pressures are kept; they are isothermal ones.
    w_modifier : array_like, scalar or (R, S)
        Mass fraction of modifier [-].
    inlet_temperature : array_like, scalar or (R,)
        Of the mobile phase entering the first bed [K].

    Returns
    -------
    AdiabaticProfile
        To march again at these temperatures, pass the mean of neighbouring faces.
    """
    shape = march.density.shape
    w = np.broadcast_to(np.asarray(w_modifier, dtype=np.float64), shape)
    inlet = np.broadcast_to(np.asarray(inlet_temperature, dtype=np.float64), (shape[0],))
    bed = np.broadcast_to(march.layout.is_column, shape)
    step = np.where(bed, np.diff(march.pressure, axis=1), 0.0)
    pressure = np.minimum(march.mid_pressure, HIGHEST_MODEL_PRESSURE)
    faces, moved = adiabatic_faces(fluid, w, pressure, step, inlet)
    outlet = faces[:, -1]
    return AdiabaticProfile(faces, outlet, outlet - inlet, moved < _SETTLED_K)


def adiabatic_faces(
    fluid: ExpandingFluid,
    w_modifier: FloatArray,
    pressure: FloatArray,
    step: FloatArray,
    inlet_temperature: FloatArray,
    estimate: FloatArray | None = None,
) -> tuple[FloatArray, FloatArray]:
    """Temperatures at the faces of slices without exchange of heat.

    Parameters
    ----------
    fluid : ExpandingFluid
        Mobile phase.
    w_modifier, pressure : ndarray, (R, S)
        Mass fraction of modifier [-] and pressure [Pa] in the middle of the slices.
    step : ndarray, (R, S)
        Change of pressure over every slice [Pa]; 0 where heat is not kept.
    inlet_temperature : ndarray, (R,)
        [K].
    estimate : ndarray, (R,), optional
        Mean slope to begin with [K/Pa]; the inlet's temperature everywhere without it.

    Returns
    -------
    faces : ndarray, (R, S+1)
        [K].
    moved : ndarray, (R,)
        What the last sweep changed [K].
    """
    rows, slices = step.shape
    inlet = inlet_temperature[:, None]
    faces = np.repeat(inlet, slices + 1, axis=1)
    lowest = _lowest(inlet_temperature, pressure[:, -1])[:, None]
    if estimate is not None:
        faces[:, 1:] += estimate[:, None] * np.cumsum(step, axis=1)
        faces = np.maximum(faces, lowest)
    moved = np.full(rows, np.inf)
    # A row that rests is left alone: it comes out the same alone and in any company.
    going = np.arange(rows)
    for _ in range(_MOST_SWEEPS):
        known = faces[going]
        middle = 0.5 * (known[:, 1:] + known[:, :-1])
        slope = fluid.isenthalpic_slope(w_modifier[going], middle, pressure[going])
        new = known.copy()
        new[:, 1:] = inlet[going] + np.cumsum(slope * step[going], axis=1)
        new = np.maximum(new, lowest[going])
        moved[going] = np.max(np.abs(new - known), axis=1)
        faces[going] = new
        going = going[moved[going] >= _SETTLED_K]
        if not going.size:
            break
    return faces, moved


def _lowest(inlet_temperature: FloatArray, outlet_pressure: FloatArray) -> FloatArray:
    """Temperature [K] that expansion does not go below, shape (R,).

    Once carbon dioxide boils it stays on its saturation line; a modifier boils later. The slope is
    that of one phase and would go on, below zero kelvin at last.
    """
    lowest = np.full(outlet_pressure.shape, _COLDEST)
    boils = np.flatnonzero(outlet_pressure < CRITICAL_PRESSURE)
    if boils.size:
        known = np.maximum(outlet_pressure[boils], TRIPLE_PRESSURE)
        saturated = np.maximum(co2_saturation.saturation_temperature(known), _COLDEST)
        # what comes in colder than that is a liquid that stays one
        lowest[boils] = np.where(inlet_temperature[boils] > saturated, saturated, _COLDEST)
    return np.asarray(np.minimum(lowest, inlet_temperature))
