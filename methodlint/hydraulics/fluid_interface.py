"""What the hydraulics asks of a mobile phase; `methodlint.fluids` supplies it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, runtime_checkable

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.distinct import distinct

__all__ = [
    "ExpandingFluid",
    "FloatArray",
    "FlowingFluid",
    "FluidAt",
    "at_temperatures",
    "density_and_viscosity",
]

FloatArray = npt.NDArray[np.float64]


class FlowingFluid(Protocol):
    """A mobile phase whose composition is the mass fraction of modifier.

    Every method takes arrays that broadcast: mass fraction of modifier [-], T [K], P [Pa, abs].
    """

    def density(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> npt.NDArray[np.float64]:
        """Density [kg/m3]."""

    def viscosity(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> npt.NDArray[np.float64]:
        """Dynamic viscosity [Pa s]."""


@runtime_checkable
class PairedFluid(Protocol):
    """A mobile phase that gives both at once for little more than the price of one."""

    def density_and_viscosity(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
        """Density [kg/m3] and dynamic viscosity [Pa s]."""


class ExpandingFluid(FlowingFluid, Protocol):
    """A mobile phase that also says how it cools when it expands."""

    def isenthalpic_slope(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> npt.NDArray[np.float64]:
        """(dT/dP) at constant enthalpy [K/Pa]."""


def density_and_viscosity(
    fluid: FlowingFluid, w_mod: FloatArray, T: FloatArray, P: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Density [kg/m3] and viscosity [Pa s], in one call where the fluid offers it."""
    if isinstance(fluid, PairedFluid):
        return fluid.density_and_viscosity(w_mod, T, P)
    return fluid.density(w_mod, T, P), fluid.viscosity(w_mod, T, P)


class Isotherms(Protocol):
    """A mobile phase at a few temperatures."""

    def density_and_viscosity(
        self, w_mod: FloatArray, which: npt.NDArray[np.intp], P: FloatArray, /
    ) -> tuple[FloatArray, FloatArray]:
        """Density [kg/m3] and viscosity [Pa s]; `which` is the number of the temperature."""


@runtime_checkable
class IsothermalFluid(Protocol):
    """A mobile phase that computes faster what few temperatures are known for beforehand."""

    def isotherms(self, T: FloatArray, /) -> Isotherms:
        """At these temperatures [K], (n,)."""


class FluidAt(Protocol):
    """A mobile phase at the temperatures of R rows and S slices."""

    def density_and_viscosity(
        self, w_mod: FloatArray, P: FloatArray, /
    ) -> tuple[FloatArray, FloatArray]:
        """Density [kg/m3] and viscosity [Pa s], (R, S)."""

    def take(self, rows: npt.NDArray[np.int64], /) -> FluidAt:
        """The same for some of the rows."""


@dataclass(frozen=True, slots=True)
class _Anywhere:
    """Any fluid at any temperatures."""

    fluid: FlowingFluid
    T: FloatArray

    def density_and_viscosity(
        self, w_mod: FloatArray, P: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        return density_and_viscosity(self.fluid, w_mod, self.T, P)

    def take(self, rows: npt.NDArray[np.int64]) -> _Anywhere:
        return _Anywhere(self.fluid, self.T[rows])


@dataclass(frozen=True, slots=True)
class _AtIsotherms:
    """A fluid at a few temperatures, and which of them every slice has."""

    isotherms: Isotherms
    which: npt.NDArray[np.intp]

    def density_and_viscosity(
        self, w_mod: FloatArray, P: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        return self.isotherms.density_and_viscosity(w_mod, self.which, P)

    def take(self, rows: npt.NDArray[np.int64]) -> _AtIsotherms:
        return _AtIsotherms(self.isotherms, self.which[rows])


def at_temperatures(fluid: FlowingFluid, T: FloatArray) -> FluidAt:
    """A mobile phase at the temperatures of R rows and S slices [K], (R, S).

    What a state costs depends mostly on its temperature, and rows of a run share theirs.
    """
    if not isinstance(fluid, IsothermalFluid):
        return _Anywhere(fluid, T)
    # Rows that follow each other have mostly the same: only those that differ are looked through.
    begins = np.concatenate([[True], (T[1:] != T[:-1]).any(axis=1)])
    differing = T[begins]
    few = distinct(differing)
    which = np.searchsorted(few, differing)[np.cumsum(begins) - 1]
    return _AtIsotherms(fluid.isotherms(few), which)
