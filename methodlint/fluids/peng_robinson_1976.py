"""Peng-Robinson cubic equation of state for a binary of carbon dioxide and a modifier.

Source: D.-Y. Peng, D. B. Robinson, A New Two-Constant Equation of State, Ind. Eng. Chem. Fundam. 15
(1976) 59-64; van der Waals one-fluid mixing rules.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

GAS_CONSTANT = 8.314462618
OMEGA_A = 0.45724
OMEGA_B = 0.07780
ROOT_TWO = float(np.sqrt(2.0))


@dataclass(frozen=True)
class CriticalConstants:
    """What the cubic needs to know of one component.

    Attributes
    ----------
    temperature : float
        Critical temperature [K].
    pressure : float
        Critical pressure [Pa].
    acentric_factor : float
        Pitzer's acentric factor [-].

    """

    temperature: float
    pressure: float
    acentric_factor: float

    @cached_property
    def covolume(self) -> float:
        """Covolume b [m3/mol]."""
        return OMEGA_B * GAS_CONSTANT * self.temperature / self.pressure

    @cached_property
    def attraction_at_critical(self) -> float:
        """Attraction parameter a at the critical temperature [Pa m6/mol2]."""
        return OMEGA_A * (GAS_CONSTANT * self.temperature) ** 2 / self.pressure

    @cached_property
    def slope(self) -> float:
        """Slope kappa of the square root of alpha [-] (equation 18 of the paper)."""
        w = self.acentric_factor
        return 0.37464 + 1.54226 * w - 0.26992 * w * w

    def attraction(self, T: ArrayLike) -> Array:
        """Attraction parameter a(T) [Pa m6/mol2]."""
        ratio = np.sqrt(np.asarray(T, dtype=float) / self.temperature)
        alpha = (1.0 + self.slope * (1.0 - ratio)) ** 2
        return np.asarray(self.attraction_at_critical * alpha)


class Interaction(NamedTuple):
    """What one molecule of carbon dioxide and one of the modifier do to each other.

    Attributes
    ----------
    k12 : array_like
        Deviation of the attraction from the geometric mean, at equal mole fractions [-].
    slope : array_like
        Added to k12 in proportion to x1 - x2 [-].
    l12 : array_like
        Deviation of the covolume from the arithmetic mean [-].

    """

    k12: ArrayLike
    slope: ArrayLike = 0.0
    l12: ArrayLike = 0.0


def compressibility_roots(A: Array, B: Array) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Smallest and largest real root of the cubic, and whether there are three.

    Parameters
    ----------
    A, B : ndarray, broadcast shape
        aP/(RT)^2 and bP/(RT) [-].

    Returns
    -------
    smallest, largest : ndarray
        Liquid-like and vapour-like compressibility factor [-]; equal where there is one real root.
    three : ndarray of bool
        Where three real roots exist.

    """
    c2 = B - 1.0
    c1 = A - B * (3.0 * B + 2.0)
    c0 = B * (B * (B + 1.0) - A)
    shift = c2 / 3.0
    q = shift * shift - c1 / 3.0
    r = shift * (shift * shift - 0.5 * c1) + 0.5 * c0
    discriminant = r * r - q * q * q
    three = discriminant < 0.0
    s = np.cbrt(np.abs(r) + np.sqrt(np.maximum(discriminant, 0.0)))
    s = np.where(r > 0.0, -s, s)
    single = s + q / np.where(s == 0.0, np.inf, s) - shift
    if not three.any():
        return single, single, three
    q = np.maximum(q, 1e-100)
    theta = np.arccos(np.clip(r / (q * np.sqrt(q)), -1.0, 1.0)) / 3.0
    amplitude = -2.0 * np.sqrt(q)
    smallest = np.where(three, amplitude * np.cos(theta) - shift, single)
    largest = np.where(three, amplitude * np.cos(theta + 2.0 * np.pi / 3.0) - shift, single)
    # A liquid root below the covolume has no meaning; the paper discards it.
    smallest = np.where(smallest > B, smallest, largest)
    return smallest, largest, three


@dataclass(frozen=True)
class BinaryCubic:
    """Peng-Robinson equation for two components, first carbon dioxide, second the modifier.

    Attributes
    ----------
    first, second : CriticalConstants
        The pure components.

    """

    first: CriticalConstants
    second: CriticalConstants

    def parameters(
        self, x2: ArrayLike, T: ArrayLike, interaction: Interaction
    ) -> tuple[tuple[Array, Array, Array], tuple[Array, Array, Array]]:
        """Attraction and covolume of the mixture, with what each component contributes.

        Parameters
        ----------
        x2 : array_like
            Mole fraction of the modifier [-].
        T : array_like
            Temperature [K].
        interaction : Interaction
            Of the pair, at T.

        Returns
        -------
        attraction, covolume : tuple of ndarray
            a and the half-derivatives of n^2 a by n1 and n2 [Pa m6/mol2]; b and the derivatives
            of n b by n1 and n2 [m3/mol].

        """
        x2 = np.asarray(x2, dtype=float)
        x1 = 1.0 - x2
        k12, slope, l12 = (np.asarray(value, dtype=float) for value in interaction)
        a11 = self.first.attraction(T)
        a22 = self.second.attraction(T)
        mean = np.sqrt(a11 * a22)
        a12 = mean * (1.0 - k12 - slope * (x1 - x2))
        turn = 2.0 * slope * mean * x1 * x2
        s1 = x1 * a11 + x2 * a12 - turn * x2
        s2 = x1 * a12 + x2 * a22 + turn * x1
        b1, b2 = self.first.covolume, self.second.covolume
        shrink = l12 * (b1 + b2)
        covolume = (x1 * b1 + x2 * b2 - shrink * x1 * x2, b1 - shrink * x2**2, b2 - shrink * x1**2)
        return (x1 * s1 + x2 * s2, s1, s2), covolume

    def log_fugacity_coefficients(
        self, x2: ArrayLike, T: ArrayLike, P: ArrayLike, interaction: Interaction, *, liquid: bool
    ) -> tuple[Array, Array]:
        """ln phi of both components [-] on the liquid or the vapour root (equation 19, mixture)."""
        T = np.asarray(T, dtype=float)
        P = np.asarray(P, dtype=float)
        (a, *attractions), (b, *covolumes) = self.parameters(x2, T, interaction)
        RT = GAS_CONSTANT * T
        A = a * P / RT**2
        B = b * P / RT
        smallest, largest, _ = compressibility_roots(A, B)
        Z = smallest if liquid else largest
        log_term = np.log((Z + (1.0 + ROOT_TWO) * B) / (Z + (1.0 - ROOT_TWO) * B))
        factor = a / (2.0 * ROOT_TWO * b * RT) * log_term
        repulsion = -np.log(Z - B)
        out = []
        for s, b_i in zip(attractions, covolumes, strict=True):
            ratio = b_i / b
            out.append(ratio * (Z - 1.0) + repulsion - factor * (2.0 * s / a - ratio))
        return out[0], out[1]

    def molar_volume(
        self,
        x2: ArrayLike,
        T: ArrayLike,
        P: ArrayLike,
        interaction: Interaction,
        *,
        liquid: bool = True,
    ) -> Array:
        """Molar volume [m3/mol] on the liquid-like (or vapour-like) root."""
        T = np.asarray(T, dtype=float)
        P = np.asarray(P, dtype=float)
        (a, *_), (b, *_) = self.parameters(x2, T, interaction)
        RT = GAS_CONSTANT * T
        smallest, largest, _ = compressibility_roots(a * P / RT**2, b * P / RT)
        return np.asarray((smallest if liquid else largest) * RT / P)

    def pressure(
        self, x2: ArrayLike, T: ArrayLike, V: ArrayLike, interaction: Interaction
    ) -> Array:
        """Pressure [Pa] at molar volume V [m3/mol] (equation 4 of the paper)."""
        V = np.asarray(V, dtype=float)
        (a, *_), (b, *_) = self.parameters(x2, T, interaction)
        RT = GAS_CONSTANT * np.asarray(T, dtype=float)
        return np.asarray(RT / (V - b) - a / (V * V + 2.0 * b * V - b * b))

    def diffusion_stability(
        self,
        x2: ArrayLike,
        T: ArrayLike,
        P: ArrayLike,
        interaction: Interaction,
        *,
        liquid: bool = True,
    ) -> Array:
        """d(ln f2)/d(x2) times x2 [-] at constant T and P: negative inside the spinodal."""
        x2 = np.asarray(x2, dtype=float)
        step = 1e-5 * np.minimum(np.maximum(x2, 1e-6), np.maximum(1.0 - x2, 1e-6))
        high = self.log_fugacity_coefficients(x2 + step, T, P, interaction, liquid=liquid)[1]
        low = self.log_fugacity_coefficients(x2 - step, T, P, interaction, liquid=liquid)[1]
        return np.asarray(1.0 + x2 * (high - low) / (2.0 * step))
