"""A liquid that flows without carbon dioxide and has no model with it: heptane, dichloromethane...

Only what a pressure drop needs is modelled: density of the liquid, and viscosity at pressure.
Liquids that have a model with carbon dioxide are taken from that, at a modifier share of 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from methodlint.fluids.liquids.density_dymond_1988 import REFERENCE_PRESSURE
from methodlint.fluids.liquids.known import find_liquid
from methodlint.fluids.liquids.liquid_record import LiquidRecord
from methodlint.fluids.mixtures.boundary import load_boundary
from methodlint.fluids.mixtures.boundary_band import BoundaryBand
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.fluids.mixtures.modifier_liquid import continued

Array = NDArray[np.float64]

__all__ = ["NeatLiquid", "neat_liquid"]

PRESSURE_COEFFICIENT = 8e-9
"""d ln(viscosity)/dP of organic liquids near room temperature [1/Pa]: toluene about 7 and heptane
about 9 per GPa up to 50 MPa (unverified)."""


@dataclass(frozen=True)
class NeatLiquid(MixtureModel):
    """Liquids alone: whatever mass fraction is asked, no carbon dioxide is there.

    Attributes
    ----------
    parts : tuple of (LiquidRecord, float)
        Components with their mole fractions [-].
    """

    parts: tuple[tuple[LiquidRecord, float], ...] = ()

    @property
    def molar_mass(self) -> float:
        """Mean molar mass [kg/mol]."""
        return sum(fraction * liquid.molar_mass for liquid, fraction in self.parts)

    def modifier_density(self, T: ArrayLike, P: ArrayLike = REFERENCE_PRESSURE) -> Array:
        """Density at 1 bar [kg/m3]: compressed by 2 % at the most, which no pressure drop shows."""
        T, P = np.broadcast_arrays(np.asarray(T, dtype=float), np.asarray(P, dtype=float))
        volume: Array = np.zeros(T.shape)
        for liquid, fraction in self.parts:
            volume = volume + fraction * liquid.molar_mass / continued(liquid.density, T)
        return np.asarray(self.molar_mass / volume)

    def density(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Density [kg/m3]."""
        shape = np.broadcast(np.asarray(w_mod), np.asarray(T), np.asarray(P)).shape
        return np.asarray(np.broadcast_to(self.modifier_density(T, P), shape))

    def density_and_viscosity(
        self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike
    ) -> tuple[Array, Array]:
        """Density [kg/m3] and dynamic viscosity [Pa s]; blends by the logarithm, mole by mole."""
        _, T, P = np.broadcast_arrays(
            np.asarray(w_mod, dtype=float), np.asarray(T, dtype=float), np.asarray(P, dtype=float)
        )
        logarithm = PRESSURE_COEFFICIENT * (P - REFERENCE_PRESSURE)
        for liquid, fraction in self.parts:
            logarithm = logarithm + fraction * np.log(continued(liquid.viscosity, T))
        return self.density(w_mod, T, P), np.asarray(np.exp(logarithm))

    def isotherms(self, T: Array) -> _AtTemperatures:  # type: ignore[override]
        """The same at a few temperatures [K], (n,)."""
        return _AtTemperatures(self, T)

    def heat_capacity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Isobaric heat capacity at 25 C [J/(kg K)]; 2000 for a liquid without a figure."""
        molar = sum(f * one.molar_mass * (one.heat_capacity or 2000.0) for one, f in self.parts)
        shape = np.broadcast(np.asarray(w_mod), np.asarray(T), np.asarray(P)).shape
        return np.full(shape, molar / self.molar_mass)

    def highest_two_phase_pressure(self, T: ArrayLike) -> Array:
        """Zero: there is one phase at any pressure of a flow train."""
        return np.zeros(np.shape(T))

    def upper_boundary_pressure(self, w_mod: ArrayLike, T: ArrayLike) -> Array:
        """Zero."""
        return np.zeros(np.broadcast(np.asarray(w_mod), np.asarray(T)).shape)

    def two_phase(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> NDArray[np.bool_]:
        """Never."""
        shape = np.broadcast(np.asarray(w_mod), np.asarray(T), np.asarray(P)).shape
        return np.zeros(shape, dtype=bool)

    def boundary_band(self, w_mod: ArrayLike, T: ArrayLike) -> BoundaryBand:
        """Nothing to be uncertain about [Pa]."""
        zero = np.zeros(np.broadcast(np.asarray(w_mod), np.asarray(T)).shape)
        return BoundaryBand(zero, zero)


@dataclass(frozen=True, slots=True)
class _AtTemperatures:
    liquid: NeatLiquid
    T: Array

    def density_and_viscosity(
        self, w_mod: Array, which: NDArray[np.intp], P: Array
    ) -> tuple[Array, Array]:
        return self.liquid.density_and_viscosity(w_mod, self.T[which], P)


@lru_cache(maxsize=64)
def neat_liquid(parts: tuple[tuple[str, float], ...]) -> NeatLiquid | None:
    """Model of a liquid without carbon dioxide.

    Parameters
    ----------
    parts : tuple of (str, float)
        Names and shares by volume [-].

    Returns
    -------
    NeatLiquid or None
        None where density or viscosity of a component is not known, and for blends with water,
        whose viscosity runs through a maximum that no component shows.
    """
    found = [(find_liquid(name), share) for name, share in parts]
    known = [(liquid, share) for liquid, share in found if liquid is not None]
    if len(known) < len(found) or not known:
        return None
    if any(liquid.density is None or liquid.viscosity is None for liquid, _ in known):
        return None
    if len(known) > 1 and any(liquid.name == "water" for liquid, _ in known):
        return None
    moles = [
        share * float(continued(liquid.density, np.asarray(293.15))) / liquid.molar_mass
        for liquid, share in known
    ]
    carrier = model_for("methanol")
    assert carrier is not None
    return NeatLiquid(
        name=" + ".join(liquid.name for liquid, _ in known),
        modifier=carrier.modifier,
        boundary=load_boundary("methanol"),
        parts=tuple(
            (liquid, mole / sum(moles)) for (liquid, _), mole in zip(known, moles, strict=True)
        ),
    )
