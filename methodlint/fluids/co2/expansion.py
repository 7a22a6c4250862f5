"""Where CO2 ends up when it expands at constant enthalpy, solid CO2 included.

Above the triple-point pressure everything follows from the reference equation of state (Span &
Wagner 1996).  It does not describe the solid: below that pressure the two-phase end lies on the
sublimation line of `sublimation_span_wagner_1996`, whose heat of sublimation comes from the
Clapeyron equation, and the vapour over the solid is the reference equation's gas continued below
its triple point.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
import numpy.typing as npt

from methodlint.fluids.bracketed_root import bracketed_root
from methodlint.fluids.co2.constants import CRITICAL_PRESSURE, TRIPLE_PRESSURE, TRIPLE_TEMPERATURE
from methodlint.fluids.co2.melting_span_wagner_1996 import melting_temperature
from methodlint.fluids.co2.states import (
    FALLBACK_VALIDITY,
    SURFACE_VALIDITY,
    enthalpy,
)
from methodlint.fluids.co2.sublimation_span_wagner_1996 import (
    sublimation_enthalpy,
    sublimation_temperature,
)
from methodlint.fluids.co2.surfaces import load_surfaces
from methodlint.fluids.validity import OutOfRange

__all__ = ["ExpansionEnd", "isenthalpic_end", "temperature_from_enthalpy"]

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]

#: [K], width of the final brackets of temperatures.
_TOLERANCE: Final = 1e-7


@dataclass(frozen=True)
class ExpansionEnd:
    """State after an expansion.

    Parameters
    ----------
    temperature : numpy.ndarray
        Temperature [K].
    vapour_fraction : numpy.ndarray
        Share of the mass (and of the amount) that is vapour; the rest is liquid, or solid where
        `solid` is true.  A single phase counts as 1 where it is lighter, 0 where it is denser,
        than the saturation line or, above the critical temperature, the critical isochore.
    solid : numpy.ndarray of bool
        True where solid CO2 is a part of the end state.
    """

    temperature: FloatArray
    vapour_fraction: FloatArray
    solid: BoolArray


def isenthalpic_end(T: npt.ArrayLike, P: npt.ArrayLike, P_end: npt.ArrayLike) -> ExpansionEnd:
    """State of CO2 after expansion from `T` [K], `P` [Pa] to `P_end` [Pa] without heat exchange.

    Raises
    ------
    OutOfRange
        If the start or the end is outside the limits of the models: pressures from 0.5 bar, no
        end that is all solid.
    """
    h, end = np.broadcast_arrays(enthalpy(T, P), np.asarray(P_end, dtype=float))
    temperature, vapour, solid = _state_at(h.ravel(), end.ravel())
    return ExpansionEnd(
        temperature.reshape(h.shape)[()], vapour.reshape(h.shape)[()], solid.reshape(h.shape)[()]
    )


def temperature_from_enthalpy(h: npt.ArrayLike, P: npt.ArrayLike) -> FloatArray:
    """Temperature [K] of CO2 with specific enthalpy `h` [J/kg] at pressure `P` [Pa].

    Where two phases coexist it is their common temperature.

    Raises
    ------
    OutOfRange
        If the state is outside the limits of the models, see `isenthalpic_end`.
    """
    target, pressure = np.broadcast_arrays(np.asarray(h, dtype=float), np.asarray(P, dtype=float))
    return _state_at(target.ravel(), pressure.ravel())[0].reshape(target.shape)[()]


def _state_at(h: FloatArray, P: FloatArray) -> tuple[FloatArray, FloatArray, BoolArray]:
    SURFACE_VALIDITY.pressure.require(P)
    coldest = np.full(P.shape, SURFACE_VALIDITY.temperature.lower)
    hottest = np.full(P.shape, SURFACE_VALIDITY.temperature.upper)
    surfaces = load_surfaces()

    if P.size and (P == P[0]).all():
        boiling, heavy, light, cold_enthalpy, hot_enthalpy = (
            np.broadcast_to(value, P.shape) for value in _at_one_pressure(float(P[0]))
        )
    else:
        boiling, heavy, light = _coexistence(P)
        cold_enthalpy, hot_enthalpy = enthalpy(coldest, P), enthalpy(hottest, P)
    solid_side = P < TRIPLE_PRESSURE
    subcritical = P < CRITICAL_PRESSURE
    two_phase = subcritical & (h >= heavy) & (h <= light)
    frozen = solid_side & (h < heavy)
    if frozen.any():
        k = int(np.flatnonzero(frozen)[0])
        raise OutOfRange("enthalpy", h[k], heavy[k], np.inf, "J/kg", "expanding CO2")

    T = np.where(two_phase, boiling, np.nan)
    vapour = np.zeros(P.shape)
    vapour[two_phase] = ((h - heavy) / (light - heavy))[two_phase]

    cold_gas = subcritical & (boiling < coldest) & (h > light) & (h < cold_enthalpy)
    T[cold_gas] = _cold_gas_temperature(h[cold_gas], P[cold_gas], boiling[cold_gas])

    covered = ~two_phase & ~cold_gas & (h >= cold_enthalpy) & (h <= hot_enthalpy)
    if covered.any():
        lower = np.where(subcritical & (h > light), np.maximum(boiling, coldest), coldest)[covered]
        upper = np.where(subcritical & (h < heavy), boiling, hottest)[covered]
        at, target = P[covered], h[covered]

        def excess(trial: FloatArray) -> FloatArray:
            return np.asarray(surfaces.evaluate(trial, at, ("enthalpy",))[0] - target)

        T[covered] = bracketed_root(excess, lower, upper, _TOLERANCE)

    for i in np.flatnonzero(np.isnan(T)):
        T[i] = _from_library(float(h[i]), float(P[i]))
    single = ~two_phase
    reached = np.clip(T, TRIPLE_TEMPERATURE, SURFACE_VALIDITY.temperature.upper)
    ridge = np.where(solid_side, np.inf, surfaces.ridge_pressure(reached))
    vapour[single] = (ridge > P)[single]
    return T, vapour, two_phase & solid_side


@functools.lru_cache(maxsize=64)
def _at_one_pressure(P: float) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray, FloatArray]:
    """Coexistence and the enthalpies at both ends of the surfaces: a stream mostly expands to the
    same pressure as the one before."""
    pressure = np.array([P])
    ends = (
        enthalpy(np.full(1, end), pressure)
        for end in (SURFACE_VALIDITY.temperature.lower, SURFACE_VALIDITY.temperature.upper)
    )
    found = (*_coexistence(pressure), *ends)
    for values in found:
        values.setflags(write=False)
    return found[0], found[1], found[2], found[3], found[4]


def _coexistence(P: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Temperature [K] at which vapour coexists with liquid or solid, and both enthalpies [J/kg].

    The denser phase comes first; NaN above the critical pressure.
    """
    surfaces = load_surfaces()
    boiling, heavy, light = (np.full(P.shape, np.nan) for _ in range(3))
    wet = (P >= TRIPLE_PRESSURE) & (P < CRITICAL_PRESSURE)
    T = surfaces.saturation_temperature(P[wet])
    boiling[wet] = T
    heavy[wet] = surfaces.line(T, "liquid_enthalpy")
    light[wet] = surfaces.line(T, "vapour_enthalpy")
    icy = P < TRIPLE_PRESSURE
    T = sublimation_temperature(P[icy])
    boiling[icy] = T
    light[icy] = surfaces.sublimation_line(T, "sublimation_vapour_enthalpy")
    density = surfaces.sublimation_line(T, "sublimation_vapour_density")
    heavy[icy] = light[icy] - sublimation_enthalpy(T, density)
    return boiling, heavy, light


def _cold_gas_temperature(h: FloatArray, P: FloatArray, boiling: FloatArray) -> FloatArray:
    """Temperature [K] of gas colder than the surfaces, between its coexistence line and them.

    A cubic in enthalpy, whose slopes are the reciprocal heat capacities at both ends.
    """
    surfaces = load_surfaces()
    icy = P < TRIPLE_PRESSURE
    left_h, left_cp = np.empty(P.shape), np.empty(P.shape)
    T = boiling[icy]
    left_h[icy] = surfaces.sublimation_line(T, "sublimation_vapour_enthalpy")
    left_cp[icy] = surfaces.sublimation_line(T, "sublimation_vapour_heat_capacity")
    T = boiling[~icy]
    left_h[~icy] = surfaces.line(T, "vapour_enthalpy")
    left_cp[~icy] = surfaces.line(T, "vapour_heat_capacity")
    coldest = np.full(P.shape, SURFACE_VALIDITY.temperature.lower)
    right_h, right_cp = surfaces.evaluate(coldest, P, ("enthalpy", "heat_capacity"))
    width = right_h - left_h
    t = (h - left_h) / width
    rise = coldest - boiling
    left, right = width / left_cp - rise, width / right_cp - rise
    return np.asarray(boiling + t * (rise + (1.0 - t) * (left - t * (left + right))))


def _from_library(h: float, P: float) -> float:
    from CoolProp import CoolProp

    state: Any = CoolProp.AbstractState("HEOS", "CO2")
    try:
        state.update(CoolProp.HmassP_INPUTS, h, P)
    except ValueError as refusal:
        limits = FALLBACK_VALIDITY.temperature
        # the melting line itself belongs to no side, so stay a little off it
        coldest = max(float(melting_temperature(P)), limits.lower) + 1e-3
        least, most = (float(enthalpy(T, P)) for T in (coldest, limits.upper))
        raise OutOfRange("enthalpy", h, least, most, "J/kg", "expanding CO2") from refusal
    temperature = float(state.T())
    FALLBACK_VALIDITY.temperature.require(temperature)
    return temperature
