"""Properties of CO2 in one phase, by temperature and pressure.

Within `VALIDITY` (and a little around it, down to 233 K and 0.5 bar) values come from shipped surfaces by numpy
alone; outside, from CoolProp, imported then; outside its limits, `OutOfRange`.

Errors of the surfaces against CoolProp 8.0.0, on random states (tests repeat them):

==================  ====================  ====================================================
property            263-373 K, 1-700 bar  within 3 K and 4 bar of the critical point
==================  ====================  ====================================================
density, viscosity  below 0.005 %         below 0.1 %; 1 % in the last 0.02 K, where 0.0005 bar
                                          makes as much
enthalpy            below 0.005 %         below 0.05 %
heat capacity,      below 0.05 %          below 0.3 % for 99.9 % of states, 10 % in the last
compressibility,                          0.1 K, where they grow without bound
expansivity
==================  ====================  ====================================================

The sources' own uncertainties are larger: density 0.03-0.05 % up to 300 bar (Span & Wagner 1996,
abstract); viscosity a few per cent in dense CO2 (Laesecke & Muzny 2017; unverified).

On the saturation line itself a state is taken as liquid.  Enthalpies count from the library's
reference state, 200 kJ/kg for saturated liquid at 0 °C.
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2.melting_span_wagner_1996 import melting_temperature
from methodlint.fluids.co2.surfaces import load_surfaces
from methodlint.fluids.validity import OutOfRange, StateRange, ValidityRange

__all__ = [
    "FALLBACK_VALIDITY",
    "SURFACE_VALIDITY",
    "VALIDITY",
    "CarbonDioxideIsotherms",
    "compressibility",
    "density",
    "density_and_viscosity",
    "enthalpy",
    "expansivity",
    "gas_density",
    "heat_capacity",
    "isenthalpic_slope",
    "viscosity",
]

FloatArray = npt.NDArray[np.float64]

_SURFACES_MODEL: Final = "the CO2 property surfaces"
_EQUATION_MODEL: Final = "the reference equation of CO2"
_EQUATION_SOURCE: Final = "Span & Wagner 1996; viscosity to 700 K: Laesecke & Muzny 2017, abstract"

#: Where the errors of the table above are promised.
VALIDITY: Final = StateRange(
    ValidityRange("temperature", 263.15, 373.15, "K", _SURFACES_MODEL),
    ValidityRange("pressure", 1e5, 700e5, "Pa", _SURFACES_MODEL),
)
#: What the shipped surfaces cover.
SURFACE_VALIDITY: Final = StateRange(
    ValidityRange("temperature", 233.0, 374.0, "K", _SURFACES_MODEL),
    ValidityRange("pressure", 0.49e5, 702e5, "Pa", _SURFACES_MODEL),
)
#: Where the underlying equations hold, as far as the fluid has not frozen.
FALLBACK_VALIDITY: Final = StateRange(
    ValidityRange("temperature", 216.592, 700.0, "K", _EQUATION_MODEL, _EQUATION_SOURCE),
    ValidityRange("pressure", 1e2, 8e8, "Pa", _EQUATION_MODEL, _EQUATION_SOURCE),
)


def density(T: npt.ArrayLike, P: npt.ArrayLike) -> FloatArray:
    """Density [kg/m3] at temperature `T` [K] and pressure `P` [Pa], which broadcast.

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    return _properties(T, P, ("density",))[0]


def viscosity(T: npt.ArrayLike, P: npt.ArrayLike) -> FloatArray:
    """Dynamic viscosity [Pa s] at temperature `T` [K] and pressure `P` [Pa], which broadcast.

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    return _properties(T, P, ("viscosity",))[0]


def enthalpy(T: npt.ArrayLike, P: npt.ArrayLike) -> FloatArray:
    """Specific enthalpy [J/kg] at temperature `T` [K] and pressure `P` [Pa], which broadcast.

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    return _properties(T, P, ("enthalpy",))[0]


def heat_capacity(T: npt.ArrayLike, P: npt.ArrayLike) -> FloatArray:
    """Isobaric heat capacity [J/(kg K)] at temperature `T` [K] and pressure `P` [Pa].

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    return _properties(T, P, ("heat_capacity",))[0]


def compressibility(T: npt.ArrayLike, P: npt.ArrayLike) -> FloatArray:
    """Isothermal compressibility d ln(density)/dP [1/Pa] at `T` [K] and `P` [Pa].

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    return _properties(T, P, ("compressibility",))[0]


def expansivity(T: npt.ArrayLike, P: npt.ArrayLike) -> FloatArray:
    """Isobaric expansivity -d ln(density)/dT [1/K] at `T` [K] and `P` [Pa].

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    return _properties(T, P, ("expansivity",))[0]


def density_and_viscosity(T: npt.ArrayLike, P: npt.ArrayLike) -> tuple[FloatArray, FloatArray]:
    """Density [kg/m3] and viscosity [Pa s] at `T` [K] and `P` [Pa], for little more than one.

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    rho, eta = _properties(T, P, ("density", "viscosity"))
    return rho, eta


class CarbonDioxideIsotherms:
    """Density, viscosity or both at a few temperatures and many pressures.

    Parameters
    ----------
    T : numpy.ndarray, (n,)
        Temperatures [K].
    names : tuple of str, optional
        What is wanted.
    """

    def __init__(self, T: FloatArray, names: tuple[str, ...] = ("density", "viscosity")) -> None:
        self._names = names
        limits = SURFACE_VALIDITY.temperature
        self._T = T
        self._covered = (T >= limits.lower) & (T <= limits.upper)
        at = np.clip(T, limits.lower, limits.upper)
        self._lines = load_surfaces().isotherms(at, names)

    def density_and_viscosity(
        self, which: npt.NDArray[np.intp], P: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        """Density [kg/m3] and viscosity [Pa s]; see `properties`."""
        rho, eta = self.properties(which, P)
        return rho, eta

    def properties(self, which: npt.NDArray[np.intp], P: FloatArray) -> list[FloatArray]:
        """What is wanted, in SI units.

        Parameters
        ----------
        which : numpy.ndarray of int, (N,)
            Number of the temperature of each state.
        P : numpy.ndarray, (N,)
            Pressures [Pa].

        Raises
        ------
        OutOfRange
            If a state is outside `FALLBACK_VALIDITY` or solid.
        """
        limits = SURFACE_VALIDITY.pressure
        inside = (P >= limits.lower) & (P <= limits.upper)
        if not self._covered.all():
            inside &= self._covered.take(which)
        if inside.all():
            return self._lines.evaluate(which, P)
        beyond = ~inside
        near = self._lines.evaluate(which[inside], P[inside])
        far = _from_library(self._T[which[beyond]], P[beyond], self._names)
        found = [np.empty(P.shape) for _ in self._names]
        for whole, covered, computed in zip(found, near, far, strict=True):
            whole[inside], whole[beyond] = covered, computed
        return found


def isenthalpic_slope(T: npt.ArrayLike, P: npt.ArrayLike) -> FloatArray:
    """Joule-Thomson coefficient (dT/dP) at constant enthalpy [K/Pa] at `T` [K] and `P` [Pa].

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    rho, cp, alpha = _properties(T, P, ("density", "heat_capacity", "expansivity"))
    return np.asarray((np.asarray(T, dtype=float) * alpha - 1.0) / (rho * cp))[()]


def gas_density(T: npt.ArrayLike, P: npt.ArrayLike = 101325.0) -> FloatArray:
    """Density [kg/m3] of gaseous CO2 at `T` [K] and `P` [Pa], atmospheric unless told.

    Raises
    ------
    OutOfRange
        If a state is outside `FALLBACK_VALIDITY` or solid.
    """
    return density(T, P)


def _properties(
    T: npt.ArrayLike, P: npt.ArrayLike, names: tuple[str, ...]
) -> tuple[FloatArray, ...]:
    temperature, pressure = np.asarray(T, dtype=float), np.asarray(P, dtype=float)
    if temperature.shape != pressure.shape:
        temperature, pressure = np.broadcast_arrays(temperature, pressure)
    shape = temperature.shape
    temperature, pressure = temperature.ravel(), pressure.ravel()
    inside = SURFACE_VALIDITY.contains(temperature, pressure)
    if inside.all():
        found = load_surfaces().evaluate(temperature, pressure, names)
    else:
        found = [np.empty(temperature.shape) for _ in names]
        covered = load_surfaces().evaluate(temperature[inside], pressure[inside], names)
        computed = _from_library(temperature[~inside], pressure[~inside], names)
        for whole, near, far in zip(found, covered, computed, strict=True):
            whole[inside], whole[~inside] = near, far
    return tuple(values.reshape(shape)[()] for values in found)


_READERS: Final = {
    "density": "rhomass",
    "viscosity": "viscosity",
    "enthalpy": "hmass",
    "heat_capacity": "cpmass",
    "compressibility": "isothermal_compressibility",
    "expansivity": "isobaric_expansion_coefficient",
}


def _from_library(T: FloatArray, P: FloatArray, names: tuple[str, ...]) -> FloatArray:
    FALLBACK_VALIDITY.require(T, P)
    from CoolProp import CoolProp

    state: Any = CoolProp.AbstractState("HEOS", "CO2")
    found = np.empty((len(names), T.size))
    for k, (temperature, pressure) in enumerate(zip(T.tolist(), P.tolist(), strict=True)):
        try:
            state.update(CoolProp.PT_INPUTS, pressure, temperature)
            found[:, k] = [getattr(state, _READERS[name])() for name in names]
        except ValueError as refusal:
            limits = FALLBACK_VALIDITY.temperature
            melting = float(melting_temperature(pressure))
            raise OutOfRange(
                "temperature", temperature, melting, limits.upper, "K", _EQUATION_MODEL
            ) from refusal
    return found
