"""The liquid modifier at pressure, pure or blended: density, viscosity, and what the mixture
needs of it.

Blends of liquids mix volumes ideally, the logarithm of viscosity by mole fraction (Arrhenius), heat
capacity by mass and, for the equation of state, the square root of the attraction by mole fraction.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from methodlint.fluids.liquids.density_dymond_1988 import REFERENCE_PRESSURE, compression
from methodlint.fluids.liquids.known import LiquidRecord
from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation
from methodlint.fluids.liquids.viscosity_lucas_1981 import pressure_factor
from methodlint.fluids.mixtures.interaction_parameters import CARBON_DIOXIDE, PairParameters
from methodlint.fluids.peng_robinson_1976 import GAS_CONSTANT, compressibility_roots

Array = NDArray[np.float64]

LOWEST_T, HIGHEST_T = 273.15, 373.15
LOWEST_P, HIGHEST_P = 1e5, 700e5
_DEGREE_T, _DEGREE_P = 4, 4


def continued(correlation: TemperatureCorrelation | None, T: Array) -> Array:
    """A correlation continued beyond its range by a cubic in T of its logarithm."""
    if correlation is None:
        raise ValueError("a modifier needs a density and a viscosity")
    cubic, middle, half = _continued(correlation)
    return np.asarray(np.exp(np.polyval(cubic, (T - middle) / half)))


@cache
def _continued(correlation: TemperatureCorrelation) -> tuple[Array, float, float]:
    inside = np.linspace(
        max(correlation.lower, LOWEST_T - 10.0), min(correlation.upper, HIGHEST_T), 40
    )
    middle, half = 0.5 * (inside[0] + inside[-1]), 0.5 * (inside[-1] - inside[0])
    powers = np.vander((inside - middle) / half, 4)
    cubic, *_ = np.linalg.lstsq(powers, np.log(correlation(inside)), rcond=None)
    return cubic, float(middle), float(half)


@dataclass(frozen=True)
class ModifierLiquid:
    """One liquid or a blend of liquids.

    Attributes
    ----------
    liquids : tuple of Liquid
        Components.
    pairs : tuple of PairParameters
        Parameters of each with carbon dioxide; for water those of the liquid it is dissolved in.
    mole_fractions : tuple of float
        Of each component in the modifier [-].

    """

    liquids: tuple[LiquidRecord, ...]
    pairs: tuple[PairParameters, ...]
    mole_fractions: tuple[float, ...]

    @cached_property
    def molar_mass(self) -> float:
        """Mean molar mass [kg/mol]."""
        return sum(f * l.molar_mass for f, l in zip(self.mole_fractions, self.liquids, strict=True))

    @cached_property
    def heat_capacity(self) -> float:
        """Isobaric heat capacity at 25 C [J/(kg K)]."""
        molar = 0.0
        for fraction, liquid in zip(self.mole_fractions, self.liquids, strict=True):
            molar += fraction * liquid.molar_mass * (liquid.heat_capacity or 2300.0)
        return molar / self.molar_mass

    @cached_property
    def highest_temperature(self) -> float:
        """Upper end of the published correlations used [K]."""
        tops = [HIGHEST_T]
        for liquid in self.liquids:
            tops += [c.upper for c in (liquid.density, liquid.viscosity) if c is not None]
        return min(tops)

    def density(self, T: ArrayLike, P: ArrayLike = REFERENCE_PRESSURE) -> Array:
        """Density [kg/m3] at T [K] and P [Pa] of the liquid without carbon dioxide."""
        T, P = np.asarray(T, dtype=float), np.asarray(P, dtype=float)
        return np.asarray(self.molar_mass / self._molar_volume(T, P))

    def _molar_volume(self, T: Array, P: Array) -> Array:
        total: Array = np.zeros(np.broadcast(T, P).shape)
        for fraction, liquid in zip(self.mole_fractions, self.liquids, strict=True):
            rho = continued(liquid.density, T) * compression(liquid.name, T, P)
            total = total + fraction * liquid.molar_mass / rho
        return total

    def viscosity(self, T: ArrayLike, P: ArrayLike = REFERENCE_PRESSURE) -> Array:
        """Dynamic viscosity [Pa s] at T [K] and P [Pa] of the liquid without carbon dioxide."""
        T, P = np.asarray(T, dtype=float), np.asarray(P, dtype=float)
        logarithm: Array = np.zeros(np.broadcast(T, P).shape)
        parts = zip(self.mole_fractions, self.liquids, self.pairs, strict=True)
        for fraction, liquid, pair in parts:
            factor = pressure_factor(pair.critical, T, P, REFERENCE_PRESSURE)
            logarithm = logarithm + fraction * np.log(continued(liquid.viscosity, T) * factor)
        return np.asarray(np.exp(logarithm))

    @cached_property
    def covolume(self) -> float:
        """Covolume of the equation of state [m3/mol]."""
        return sum(
            f * p.critical.covolume for f, p in zip(self.mole_fractions, self.pairs, strict=True)
        )

    @cached_property
    def root_attraction(self) -> tuple[float, float]:
        """Coefficients p, q of sqrt(a) = p + q sqrt(T)."""
        p = q = 0.0
        for fraction, pair in zip(self.mole_fractions, self.pairs, strict=True):
            part = root_attraction(pair)
            p += fraction * part[0]
            q += fraction * part[1]
        return p, q

    def k12(self, T: ArrayLike) -> Array:
        """Mean interaction parameter with carbon dioxide [-]."""
        total: Array = np.zeros(np.shape(T))
        for fraction, pair in zip(self.mole_fractions, self.pairs, strict=True):
            total = total + fraction * pair.k12(T)
        return total

    @cached_property
    def excess_volume(self) -> float:
        """Coefficient of x1 x2 added to the molar volume [m3/mol]."""
        return sum(
            f * p.excess_volume for f, p in zip(self.mole_fractions, self.pairs, strict=True)
        )

    @cached_property
    def _coefficients(self) -> Array:
        T, P = (
            grid.ravel()
            for grid in np.meshgrid(
                np.linspace(LOWEST_T - 10.0, HIGHEST_T, 25), np.linspace(LOWEST_P, HIGHEST_P, 25)
            )
        )
        p, q = self.root_attraction
        RT = GAS_CONSTANT * T
        A = (p + q * np.sqrt(T)) ** 2 * P / RT**2
        smallest, _, _ = compressibility_roots(A, self.covolume * P / RT)
        translation = self._molar_volume(T, P) - smallest * RT / P
        wanted = np.stack([translation / self.covolume, np.log(self.viscosity(T, P))], axis=1)
        powers_t, powers_p = self._powers(T, P)
        basis = (powers_t[:, None] * powers_p[None, :]).reshape(_DEGREE_T * _DEGREE_P, -1)
        fitted, *_ = np.linalg.lstsq(basis.T, wanted, rcond=None)
        # One matrix each for volume and viscosity: powers of temperature by powers of pressure.
        return np.ascontiguousarray(fitted.T.reshape(2, _DEGREE_T, _DEGREE_P))

    def isotherms(self, T: Array) -> LiquidIsotherms:
        """Those two at a few temperatures [K], (n,), for many pressures at each."""
        powers = self._powers(T, T)[0]
        # (2, n, powers of pressure)
        lines = np.einsum("ktp,tn->knp", self._coefficients, powers)
        lines[0] *= self.covolume
        return LiquidIsotherms(np.ascontiguousarray(lines.transpose(0, 2, 1)))

    @staticmethod
    def _powers(T: Array, P: Array) -> tuple[Array, Array]:
        """Powers 0 to 3 of scaled temperature and pressure, each (4, points)."""
        t = np.minimum(np.maximum(T, LOWEST_T - 10.0), HIGHEST_T) * 0.02 - 6.463
        p = _scaled(P)
        found = []
        for x in (t, p):
            powers = np.empty((4, x.size))
            powers[0], powers[1] = 1.0, x
            np.multiply(x, x, out=powers[2])
            np.multiply(powers[2], x, out=powers[3])
            found.append(powers)
        return found[0], found[1]

    def translation_and_log_viscosity(self, T: Array, P: Array) -> tuple[Array, Array]:
        """Liquid volume minus that of the cubic [m3/mol], and ln viscosity [ln Pa s], from a fast
        fit.

        The fit repeats volume within 0.05 % and viscosity within 0.5 % between 0 and 100 C, 1-700
        bar.

        """
        translation, log_viscosity = self._fitted(T, P, self._coefficients)
        return translation * self.covolume, log_viscosity

    def translation(self, T: Array, P: Array) -> Array:
        """Liquid volume minus that of the cubic alone [m3/mol]."""
        return self._fitted(T, P, self._coefficients[:1])[0] * self.covolume

    def _fitted(self, T: Array, P: Array, fits: Array) -> list[Array]:
        shape = np.broadcast(T, P).shape
        temperature, pressure = (x.ravel() for x in np.broadcast_arrays(T, P))
        if temperature.size == 1:
            # Sums over one column are made in another order: a state is the same in any company.
            temperature, pressure = temperature.repeat(2), pressure.repeat(2)
        powers_t, powers_p = self._powers(temperature, pressure)
        found = []
        for coefficients in fits:
            terms = coefficients @ powers_p
            terms *= powers_t
            found.append(terms.sum(axis=0)[: math.prod(shape)].reshape(shape))
        return found


@dataclass(frozen=True, slots=True)
class LiquidIsotherms:
    """Volume beside that of the cubic, and viscosity, of a modifier at a few temperatures.

    Attributes
    ----------
    lines : ndarray, (2, 4, n)
        Coefficients of the powers 0 to 3 of the scaled pressure.
    """

    lines: Array

    def translation_and_log_viscosity(
        self, which: NDArray[np.intp], P: Array
    ) -> tuple[Array, Array]:
        """As `ModifierLiquid.translation_and_log_viscosity`; `which` is the temperature's number."""
        p = _scaled(P)
        found = []
        for line in self.lines:
            values = line[3].take(which)
            for coefficients in line[2::-1]:
                values *= p
                values += coefficients.take(which)
            found.append(values)
        return found[0], found[1]


def _scaled(P: Array) -> Array:
    return np.minimum(P, HIGHEST_P) * (1.0 / 350e5) - 1.0


def root_attraction(pair: PairParameters | None) -> tuple[float, float]:
    """Coefficients p, q of sqrt(a) = p + q sqrt(T); of carbon dioxide for None."""
    critical = CARBON_DIOXIDE if pair is None else pair.critical
    root = float(np.sqrt(critical.attraction_at_critical))
    return root * (1.0 + critical.slope), -root * critical.slope / float(
        np.sqrt(critical.temperature)
    )
