"""Pressure of CO2 locked into a volume: cylinders, and liquid trapped between two valves."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import numpy.typing as npt

from methodlint.fluids.bracketed_root import bracketed_root
from methodlint.fluids.co2.constants import CRITICAL_DENSITY, CRITICAL_TEMPERATURE
from methodlint.fluids.co2.melting_span_wagner_1996 import melting_pressure
from methodlint.fluids.co2.states import FALLBACK_VALIDITY, SURFACE_VALIDITY
from methodlint.fluids.co2.surfaces import load_surfaces
from methodlint.fluids.validity import OutOfRange

__all__ = ["pressure_at_density"]

FloatArray = npt.NDArray[np.float64]

#: Width of the final bracket in v, which runs from 0 at the ridge to 1 at the end of the surface.
_TOLERANCE: Final = 1e-9


def pressure_at_density(T: npt.ArrayLike, rho: npt.ArrayLike) -> FloatArray:
    """Pressure [Pa] of CO2 filling a closed volume at mean density `rho` [kg/m3] and `T` [K].

    Where liquid and vapour share the volume the pressure is the saturation pressure.  The
    volume is taken as rigid: real vessels give a little, trapped lines less.

    Raises
    ------
    OutOfRange
        If the temperature, or the pressure that results, is outside the limits of the equation
        of state, or CO2 would freeze.
    """
    temperature, target = np.broadcast_arrays(
        np.asarray(T, dtype=float), np.asarray(rho, dtype=float)
    )
    shape = temperature.shape
    temperature, target = temperature.ravel(), target.ravel()
    FALLBACK_VALIDITY.temperature.require(temperature)
    surfaces = load_surfaces()
    below = temperature < CRITICAL_TEMPERATURE
    vapour = np.full(temperature.shape, CRITICAL_DENSITY)
    liquid = vapour.copy()
    vapour[below] = surfaces.line(temperature[below], "vapour_density")
    liquid[below] = surfaces.line(temperature[below], "liquid_density")
    found = np.full(temperature.shape, np.nan)
    both = below & (target >= vapour) & (target <= liquid)
    found[both] = surfaces.line(temperature[both], "saturation_pressure")
    covered = SURFACE_VALIDITY.temperature.contains(temperature) & ~both
    for light in (False, True):
        side = covered & (target < vapour if light else target >= liquid)
        found[side] = _on_surface(temperature[side], target[side], light)
    for k in np.flatnonzero(np.isnan(found)):
        found[k] = _from_library(float(temperature[k]), float(target[k]))
    return found.reshape(shape)[()]


def _on_surface(T: FloatArray, rho: FloatArray, light: bool) -> FloatArray:
    """Pressure [Pa] on one side of the ridge; NaN where the surface ends before."""
    surfaces = load_surfaces()
    ln_target = np.log(rho)

    def excess(share: FloatArray) -> FloatArray:
        pressure = surfaces.pressure_along(T, share, light)
        return np.asarray(np.log(surfaces.evaluate(T, pressure, ("density",))[0]) - ln_target)

    near, far = np.zeros(T.shape), np.ones(T.shape)
    share = bracketed_root(excess, near, far, _TOLERANCE)
    beyond = excess(far) > 0.0 if light else excess(far) < 0.0
    return np.where(beyond, np.nan, surfaces.pressure_along(T, share, light))


def _from_library(T: float, rho: float) -> float:
    from CoolProp import CoolProp

    state: Any = CoolProp.AbstractState("HEOS", "CO2")
    limits = FALLBACK_VALIDITY.pressure
    try:
        state.update(CoolProp.DmassT_INPUTS, rho, T)
        pressure = float(state.p())
    except ValueError as refusal:
        raise OutOfRange("density", rho, 0.0, np.inf, "kg/m3", limits.model) from refusal
    limits.require(pressure)
    highest = float(melting_pressure(T))
    if pressure > highest:
        raise OutOfRange("pressure", pressure, limits.lower, highest, "Pa", limits.model)
    return pressure
