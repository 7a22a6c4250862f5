"""Carbon dioxide + modifier: density, viscosity, heat capacity, phase boundary, error bands.

The rules behind each are told where they are made: the boundary in `boundary`,
`peng_robinson_1976` and `interaction_parameters`; volume and viscosity in `mixture_volume`; the
modifier at pressure, and blends, in `modifier_liquid`.

In the two-phase region there is no single density; there the logarithms of density and viscosity
run straight, against the logarithm of pressure, from the dew side to the bubble side, so that a
march through it stays smooth and finite. Whether a state lies there is a question to
`MixtureModel.two_phase`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from methodlint.fluids.co2 import states as co2_states
from methodlint.fluids.co2.constants import MOLAR_MASS as CO2_MOLAR_MASS
from methodlint.fluids.liquids.density_dymond_1988 import REFERENCE_PRESSURE
from methodlint.fluids.mixtures.boundary import PhaseBoundary
from methodlint.fluids.mixtures.boundary_band import BANDS, SATURATION_OF_CO2, BoundaryBand
from methodlint.fluids.mixtures.mixture_volume import MixtureVolume, Temperatures
from methodlint.fluids.mixtures.modifier_liquid import HIGHEST_P, LOWEST_P, LOWEST_T, ModifierLiquid
from methodlint.fluids.validity import StateRange, ValidityRange

Array = NDArray[np.float64]

__all__ = ["MixtureModel"]


_MOST_ISOTHERMS = 16


@dataclass(frozen=True)
class MixtureModel:
    """Mixture of carbon dioxide with one modifier (a liquid or a blend).

    Every `w_mod` is the mass fraction of the modifier [-], `T` a temperature [K] and `P` an
    absolute pressure [Pa]; they broadcast. States outside `validity` are computed at the nearest
    state inside where a table ends; it is for the caller to ask `outside`.

    Attributes
    ----------
    name : str
        Of the modifier.
    modifier : ModifierLiquid
        The liquid at pressure.
    boundary : PhaseBoundary
        Two-phase envelope.
    boundary_of : tuple of str
        Modifiers whose envelopes it was made of.
    viscosity_band : float
        Relative half-width of the error of viscosity [-].
    extra_boundary_band : float
        Added to the band of the boundary [Pa].
    extra_density_band : float
        Added to the relative band of density [-].
    note : str
        What was ignored or assumed about the modifier; empty for a pure one.

    """

    name: str
    modifier: ModifierLiquid
    boundary: PhaseBoundary
    boundary_of: tuple[str, ...] = ()
    viscosity_band: float = 0.15
    extra_boundary_band: float = 0.0
    extra_density_band: float = 0.0
    note: str = ""

    @property
    def molar_mass(self) -> float:
        """Molar mass of the modifier [kg/mol]."""
        return self.modifier.molar_mass

    @cached_property
    def _volume(self) -> MixtureVolume:
        return MixtureVolume(self.modifier)

    @cached_property
    def validity(self) -> StateRange:
        """Temperatures [K] and pressures [Pa] in which the bands hold."""
        model = f"carbon dioxide + {self.name}"
        top = self.modifier.highest_temperature
        return StateRange(
            ValidityRange("temperature", LOWEST_T, top, "K", model),
            ValidityRange("pressure", LOWEST_P, HIGHEST_P, "Pa", model),
        )

    def outside(self, T: ArrayLike, P: ArrayLike) -> list[tuple[ValidityRange, float]]:
        """Ranges left by any of the states, with the signed distance of the worst [SI unit]."""
        asked = zip(self.validity, (T, P), strict=True)
        found = [(limits, limits.outside_by(value)) for limits, value in asked]
        return [(limits, distance) for limits, distance in found if distance != 0.0]

    def modifier_density(self, T: ArrayLike, P: ArrayLike = REFERENCE_PRESSURE) -> Array:
        """Density of the modifier alone [kg/m3]."""
        return self.modifier.density(T, P)

    def modifier_mole_fraction(self, w_mod: ArrayLike) -> Array:
        """Mole fraction of the modifier [-]."""
        w = np.asarray(w_mod, dtype=float)
        carbon = (1.0 - w) * (self.molar_mass / CO2_MOLAR_MASS)
        return np.asarray(w / (w + carbon))

    def density_and_viscosity(
        self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike
    ) -> tuple[Array, Array]:
        """Density [kg/m3] and dynamic viscosity [Pa s] together."""
        shape, x2, temperature, pressure = self._states(w_mod, T, P)
        rho, eta = self._density_and_viscosity(x2, temperature, pressure)
        return rho.reshape(shape)[()], eta.reshape(shape)[()]

    def _states(
        self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike
    ) -> tuple[tuple[int, ...], Array, Array, Array]:
        """Broadcast shape; mole fractions, temperatures and pressures in a row."""
        x2, temperature, pressure = np.broadcast_arrays(
            self.modifier_mole_fraction(w_mod),
            np.asarray(T, dtype=float),
            np.asarray(P, dtype=float),
        )
        return x2.shape, x2.ravel(), temperature.ravel(), pressure.ravel()

    def isotherms(self, T: Array) -> MixtureIsotherms:
        """Density and viscosity at a few temperatures [K], (n,), for many states at each."""
        known = self._known_isotherms
        key = T.tobytes()
        found = known.get(key)
        if found is None:
            # Emptied as a whole: threads may look at the same time.
            if len(known) >= _MOST_ISOTHERMS:
                known.clear()
            found = known[key] = MixtureIsotherms(self, T)
        return found

    @cached_property
    def _known_isotherms(self) -> dict[bytes, MixtureIsotherms]:
        # A transfer marches the same two lines at the same temperatures a hundred times.
        return {}

    def _density_and_viscosity(self, x2: Array, T: Array, P: Array) -> tuple[Array, Array]:
        compute = self._volume.density_and_viscosity
        if np.all(P > self.boundary.highest_two_phase_pressure(T)):
            return compute(x2, T, P, np.ones(x2.shape, dtype=bool))
        return self._near_boundary(x2, T, P)

    def _near_boundary(self, x2: Array, T: Array, P: Array) -> tuple[Array, Array]:
        compute = self._volume.density_and_viscosity
        low, high = self.boundary.limits(x2, T)
        inside = (P > low) & (P < high)
        at = np.where(inside, high, P)
        rho, eta = compute(x2, T, at, self._is_dense(x2, T, at, high))
        if inside.any():
            x2, T, P, low, high = (value[inside] for value in (x2, T, P, low, high))
            thin_rho, thin_eta = compute(x2, T, low, np.zeros(x2.shape, dtype=bool))
            share = np.log(P / low) / np.log(high / low)
            rho[inside] = rho[inside] ** share * thin_rho ** (1.0 - share)
            eta[inside] = eta[inside] ** share * thin_eta ** (1.0 - share)
        return rho, eta

    def _is_dense(self, x2: Array, T: Array, P: Array, high: Array) -> NDArray[np.bool_]:
        """Whether a one-phase state is to be read as a liquid where the cubic offers both."""
        # A composition that never splits passes from gas to liquid where its neighbours have
        # their crest.
        passage = np.where(high > 0.0, high, self.boundary.highest_two_phase_pressure(T))
        return np.asarray(passage <= P)

    def density(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Density [kg/m3]."""
        shape, x2, temperature, pressure = self._states(w_mod, T, P)
        if np.all(pressure > self.boundary.highest_two_phase_pressure(temperature)):
            above = np.ones(x2.shape, dtype=bool)
            rho = self._volume.density(x2, temperature, pressure, above)
        else:
            rho = self._near_boundary(x2, temperature, pressure)[0]
        return rho.reshape(shape)[()]

    def viscosity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Dynamic viscosity [Pa s]."""
        return self.density_and_viscosity(w_mod, T, P)[1]

    def heat_capacity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Isobaric heat capacity [J/(kg K)]: by mass, carbon dioxide at equal reduced density.

        The excess heat capacity is left out; no data were at hand. Take 10 % as its error.

        """
        w = np.asarray(w_mod, dtype=float)
        x2, temperature, pressure = np.broadcast_arrays(
            self.modifier_mole_fraction(w), np.asarray(T, dtype=float), np.asarray(P, dtype=float)
        )
        high = self.boundary.limits(x2, temperature, lower=False)[1]
        at = np.maximum(pressure, high)
        dense = self._is_dense(x2, temperature, at, high)
        _, equivalent, _ = self._volume.equivalent_state(x2, temperature, at, dense)
        carbon = co2_states.heat_capacity(temperature, equivalent)
        return np.asarray(w * self.modifier.heat_capacity + (1.0 - w) * carbon)

    def highest_two_phase_pressure(self, T: ArrayLike) -> Array:
        """Pressure above which every composition is one phase [Pa]."""
        return self.boundary.highest_two_phase_pressure(T)

    def upper_boundary_pressure(self, w_mod: ArrayLike, T: ArrayLike) -> Array:
        """Highest pressure at which this composition is two-phase [Pa]; 0 where it never is."""
        return self.boundary.limits(self.modifier_mole_fraction(w_mod), T, lower=False)[1]

    def two_phase(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> NDArray[np.bool_]:
        """Whether the state lies between its dew and its bubble pressure."""
        low, high = self.boundary.limits(self.modifier_mole_fraction(w_mod), T)
        pressure = np.asarray(P, dtype=float)
        return np.asarray((pressure > low) & (pressure < high))

    def boundary_margin(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """P minus the upper boundary pressure [Pa]; infinite where nothing ever splits."""
        high = self.upper_boundary_pressure(w_mod, T)
        return np.asarray(np.where(high > 0.0, np.asarray(P, dtype=float) - high, np.inf))

    def boundary_band(self, w_mod: ArrayLike, T: ArrayLike) -> BoundaryBand:
        """How far below and above the computed boundary the true one may lie [Pa]."""
        x2 = self.modifier_mole_fraction(w_mod)
        bands = [BANDS[name].at(x2, T) for name in self.boundary_of]
        widest = BoundaryBand(*(np.max(ends, axis=0) for ends in zip(*bands, strict=True)))
        return widest.wider(self.extra_boundary_band)

    def boundary_is_validated(self, w_mod: float, T: float) -> bool:
        """Whether measured points that were left out of the fit bear the band out here."""
        x2 = float(self.modifier_mole_fraction(w_mod))
        return not self.extra_boundary_band and all(
            BANDS[name].is_validated(x2, T) for name in self.boundary_of
        )

    def density_band(
        self,
        w_mod: ArrayLike,
        T: ArrayLike,
        P: ArrayLike,
        compressibility: Array | float | None = None,
    ) -> Array:
        """Relative half-width of the error of density [-].

        0.5 % for either pure end; for a mixture up to 2.5 % more (95 % of 422 measured densities lie
        within 2.2 to 3.0 %), and what a shift of the boundary by its band does to the density here.

        Parameters
        ----------
        compressibility
            Of this state [1/Pa]; computed if it is not known.
        """
        x2 = self.modifier_mole_fraction(w_mod)
        models = 0.025 * np.minimum(1.0, 2.0 * np.sqrt(x2 * (1.0 - x2)))
        mixed = 1.0 - np.exp(-x2 / 0.01)
        if compressibility is None:
            compressibility = self.compressibility(w_mod, T, P)
        shift = mixed * compressibility * self.boundary_band(w_mod, T).above
        extra = self.extra_density_band * mixed
        return np.asarray(0.005 + models + np.clip(shift, 0.0, 0.15) + extra)

    def compressibility(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Isothermal compressibility d ln(density)/dP [1/Pa]."""
        w, temperature, pressure = np.broadcast_arrays(w_mod, T, np.asarray(P, dtype=float))
        step = 1e-4 * pressure
        high, low = self.density(w, temperature, np.stack([pressure + step, pressure - step]))
        return np.asarray(np.log(high / low) / (2.0 * step))

    def expansivity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Isobaric expansivity -d ln(density)/dT [1/K]."""
        return self._expansivity_and_density(w_mod, T, P)[0]

    def isenthalpic_slope(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Change of temperature with pressure at constant enthalpy [K/Pa]."""
        expansivity, rho = self._expansivity_and_density(w_mod, T, P)
        rise = np.asarray(T, dtype=float) * expansivity - 1.0
        return np.asarray(rise / (rho * self.heat_capacity(w_mod, T, P)))

    def _expansivity_and_density(
        self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike
    ) -> tuple[Array, Array]:
        """Expansivity [1/K], and the mean density of the two states it is taken from [kg/m3]."""
        w, temperature, pressure = np.broadcast_arrays(w_mod, np.asarray(T, dtype=float), P)
        step = 0.02
        both = np.stack([temperature + step, temperature - step])
        high, low = self.density(w, both, pressure)
        return np.asarray(np.log(low / high) / (2.0 * step)), np.asarray(0.5 * (low + high))


class MixtureIsotherms:
    """Density and viscosity of a mixture at a few temperatures.

    Most of what a state costs depends on its temperature alone, and a run has a handful of them.
    """

    def __init__(self, model: MixtureModel, T: Array) -> None:
        self._model, self._T = model, T
        self._carbon_dioxide = co2_states.CarbonDioxideIsotherms(T)
        self._modifier = model.modifier.isotherms(T)
        self._terms = model._volume.terms(T)
        self._crest = model.boundary.highest_two_phase_pressure(T)

    def density_and_viscosity(
        self, w_mod: Array, which: NDArray[np.intp], P: Array
    ) -> tuple[Array, Array]:
        """Density [kg/m3] and dynamic viscosity [Pa s].

        Parameters
        ----------
        w_mod, P : ndarray
            Mass fraction of modifier [-] and pressure [Pa].
        which : ndarray of int
            Number of the temperature; all three of one shape.
        """
        shape = P.shape
        number, pressure = which.ravel(), P.ravel()
        x2 = self._model.modifier_mole_fraction(w_mod).ravel()
        rho, eta = np.empty(x2.shape), np.empty(x2.shape)
        above = pressure > self._crest.take(number)
        every = bool(above.all())
        if every or above.any():
            chosen = slice(None) if every else above
            numbers, mole = number[chosen], x2[chosen]
            terms = self._terms.take(numbers)
            at = Temperatures(numbers, terms, self._carbon_dioxide, self._modifier)
            dense = np.ones(mole.shape, dtype=bool)
            rho[chosen], eta[chosen] = self._model._volume.density_and_viscosity(
                mole, at, pressure[chosen], dense
            )
        if not every:
            below = ~above
            rho[below], eta[below] = self._model._near_boundary(
                x2[below], self._T[number[below]], pressure[below]
            )
        return rho.reshape(shape), eta.reshape(shape)


@dataclass(frozen=True)
class PureCarbonDioxide(MixtureModel):
    """Carbon dioxide alone: whatever mass fraction is asked, no modifier is there."""

    @property
    def molar_mass(self) -> float:
        """Molar mass [kg/mol]."""
        return CO2_MOLAR_MASS

    def modifier_density(self, T: ArrayLike, P: ArrayLike = REFERENCE_PRESSURE) -> Array:
        """Density of carbon dioxide [kg/m3]."""
        return co2_states.density(T, P)

    def modifier_mole_fraction(self, w_mod: ArrayLike) -> Array:
        """Zero."""
        return np.zeros(np.shape(w_mod))

    def heat_capacity(self, w_mod: ArrayLike, T: ArrayLike, P: ArrayLike) -> Array:
        """Isobaric heat capacity [J/(kg K)]."""
        shape = np.broadcast(np.asarray(w_mod), np.asarray(T), np.asarray(P)).shape
        return np.asarray(np.broadcast_to(co2_states.heat_capacity(T, P), shape))

    def boundary_band(self, w_mod: ArrayLike, T: ArrayLike) -> BoundaryBand:
        """Band of the saturation pressure [Pa]."""
        shape = np.broadcast(np.asarray(w_mod), np.asarray(T)).shape
        return BoundaryBand(*(np.broadcast_to(end, shape) for end in SATURATION_OF_CO2))

    def boundary_is_validated(self, w_mod: float, T: float) -> bool:
        """The reference equation is."""
        return True

    def highest_two_phase_pressure(self, T: ArrayLike) -> Array:
        """Saturation pressure [Pa]; 0 above the critical temperature."""
        return self.boundary.limits(np.zeros(np.shape(T)), T, lower=False)[1]
