"""Carbon dioxide + modifier: density, viscosity, phase boundary and their error bands."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from methodlint.fluids import co2_states
from methodlint.fluids.boundary import PhaseBoundary, load_boundary
from methodlint.fluids.interaction_parameters import PAIRS
from methodlint.fluids.liquids import find_liquid

if TYPE_CHECKING:
    from methodlint.fluids.liquid_record import Liquid

Array = NDArray[np.float64]
CO2_MOLAR_MASS = 0.0440098


@dataclass(frozen=True)
class MixtureModel:
    name: str
    molar_mass: float
    boundary: PhaseBoundary
    liquid: Liquid

    viscosity_band: float = 0.15

    def modifier_density(self, T: ArrayLike, P: ArrayLike = 101325.0) -> Array:
        return np.asarray(self.liquid.density(T) * (1.0 + 1.2e-9 * (np.asarray(P) - 1e5)))

    def modifier_mole_fraction(self, w_mod: ArrayLike) -> Array:
        w = np.asarray(w_mod, dtype=float)
        n2 = w / self.molar_mass
        return np.asarray(n2 / (n2 + (1.0 - w) / CO2_MOLAR_MASS))

    def mole_fraction_co2(self, w_mod: ArrayLike) -> Array:
        return np.asarray(1.0 - self.modifier_mole_fraction(w_mod))

    def density_and_viscosity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> tuple[Array, Array]:
        w = np.asarray(w_mod, dtype=float)
        rho1, eta1 = co2_states.density_and_viscosity(T, P)
        rho = 1.0 / (w / self.modifier_density(T, P) + (1.0 - w) / rho1)
        x2 = self.modifier_mole_fraction(w)
        return rho, np.exp(x2 * np.log(self.liquid.viscosity(T)) + (1.0 - x2) * np.log(eta1))

    def density(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        return self.density_and_viscosity(w_mod, T, P)[0]

    def viscosity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        return self.density_and_viscosity(w_mod, T, P)[1]

    def heat_capacity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        w = np.asarray(w_mod, dtype=float)
        return np.asarray(w * self.liquid.heat_capacity + (1 - w) * co2_states.heat_capacity(T, P))

    def highest_two_phase_pressure(self, T: ArrayLike) -> Array:
        return self.boundary.highest_two_phase_pressure(T)

    def upper_boundary_pressure(self, w_mod: ArrayLike, T: ArrayLike) -> Array:
        return self.boundary.limits(self.modifier_mole_fraction(w_mod), T, lower=False)[1]

    def two_phase(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> NDArray[np.bool_]:
        low, high = self.boundary.limits(self.modifier_mole_fraction(w_mod), T)
        return np.asarray((np.asarray(P) > low) & (np.asarray(P) < high))

    def boundary_margin(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        high = self.upper_boundary_pressure(w_mod, T)
        return np.asarray(np.where(high > 0.0, np.asarray(P) - high, np.inf))

    def boundary_band(self, T: ArrayLike) -> Array:
        return np.asarray(5e5 + np.maximum(np.asarray(T) - 333.15, 0.0) * 0.2e5)

    def density_band(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        return np.asarray(np.full(np.broadcast(w_mod, T, P).shape, 0.08))

    def compressibility(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        P = np.asarray(P, dtype=float)
        up = self.density(w_mod, T, P * 1.001)
        return np.asarray(np.log(up / self.density(w_mod, T, P * 0.999)) / (P * 0.002))

    def expansivity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        T = np.asarray(T, dtype=float)
        up = self.density(w_mod, T + 0.05, P)
        return np.asarray(-np.log(up / self.density(w_mod, T - 0.05, P)) / 0.1)

    def isenthalpic_slope(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        rise = np.asarray(T) * self.expansivity(w_mod, T, P) - 1.0
        return np.asarray(
            rise / (self.density(w_mod, T, P) * self.heat_capacity(w_mod, T, P))
        )


@cache
def model_for(modifier: str | tuple[tuple[str, float], ...]) -> MixtureModel | None:
    """Model of CO2 with a modifier, or None where there is none."""
    if not isinstance(modifier, str):
        return None
    liquid = find_liquid(modifier)
    if liquid is None or liquid.name not in PAIRS:
        return None
    return MixtureModel(liquid.name, liquid.molar_mass, load_boundary(liquid.name), liquid)
