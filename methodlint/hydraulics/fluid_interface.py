"""What the hydraulics asks of a mobile phase; `methodlint.fluids` supplies it."""

from __future__ import annotations

from typing import Protocol

import numpy as np
import numpy.typing as npt

__all__ = ["ExpandingFluid", "FloatArray", "FlowingFluid"]

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


class ExpandingFluid(FlowingFluid, Protocol):
    """A mobile phase that also says how it cools when it expands."""

    def isenthalpic_slope(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> npt.NDArray[np.float64]:
        """(dT/dP) at constant enthalpy [K/Pa]."""
