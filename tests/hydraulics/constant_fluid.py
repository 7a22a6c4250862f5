"""Fluids whose properties are so simple that pressures follow by hand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt


@dataclass(frozen=True)
class ConstantFluid:
    """Same density [kg/m3] and viscosity [Pa s] everywhere."""

    rho: float = 800.0
    eta: float = 8.0e-5
    slope: float = 1.0e-7

    def density(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> npt.NDArray[np.float64]:
        return np.full(np.broadcast_shapes(np.shape(w_mod), np.shape(T), np.shape(P)), self.rho)

    def viscosity(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> npt.NDArray[np.float64]:
        return np.full(np.broadcast_shapes(np.shape(w_mod), np.shape(T), np.shape(P)), self.eta)

    def isenthalpic_slope(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> npt.NDArray[np.float64]:
        return np.full(np.broadcast_shapes(np.shape(w_mod), np.shape(T), np.shape(P)), self.slope)


@dataclass(frozen=True)
class ProportionalFluid(ConstantFluid):
    """Density proportional to pressure: in viscous flow P^2 falls evenly along the way."""

    reference: float = 200.0e5

    def density(
        self, w_mod: npt.ArrayLike, T: npt.ArrayLike, P: npt.ArrayLike, /
    ) -> npt.NDArray[np.float64]:
        shape = np.broadcast_shapes(np.shape(w_mod), np.shape(T), np.shape(P))
        return np.broadcast_to(self.rho * np.asarray(P, dtype=float) / self.reference, shape)
