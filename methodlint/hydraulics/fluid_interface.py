"""What the hydraulics asks of a mobile phase; `methodlint.fluids` supplies it."""

from __future__ import annotations

from typing import Protocol, runtime_checkable

import numpy as np
import numpy.typing as npt

__all__ = ["ExpandingFluid", "FloatArray", "FlowingFluid", "density_and_viscosity"]

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
