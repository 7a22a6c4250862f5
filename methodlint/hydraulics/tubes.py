"""Pressure lost along open tubes: laminar, turbulent, and the honest answer in between."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics import friction_laminar_poiseuille as laminar_law
from methodlint.hydraulics import friction_turbulent_blasius_1913 as turbulent_law

__all__ = [
    "LAMINAR_BELOW",
    "TURBULENT_ABOVE",
    "TubeGradient",
    "pressure_gradient",
    "reynolds_number",
]

LAMINAR_BELOW = laminar_law.VALIDITY.upper
"""2100: Reynolds number up to which flow is laminar [-] (Tarafder, J. Chromatogr. A 2018)."""

TURBULENT_ABOVE = turbulent_law.VALIDITY.lower
"""4000: Reynolds number from which flow is turbulent [-] (Tarafder, J. Chromatogr. A 2018)."""


@dataclass(frozen=True)
class TubeGradient:
    """Pressure gradient of tubes, all arrays of one shape.

    Attributes
    ----------
    gradient : ndarray
        Pressure lost per length [Pa/m]; in the transition the higher of both branches.
    alternative : ndarray
        The lower branch in the transition [Pa/m]; elsewhere equal to `gradient`.
    reynolds : ndarray
        Reynolds number [-].
    transition : ndarray of bool
        2100 < Re < 4000: neither law is sure.
    """

    gradient: npt.NDArray[np.float64]
    alternative: npt.NDArray[np.float64]
    reynolds: npt.NDArray[np.float64]
    transition: npt.NDArray[np.bool_]


def reynolds_number(
    mass_flow: npt.ArrayLike, bore: npt.ArrayLike, viscosity: npt.ArrayLike
) -> npt.NDArray[np.float64]:
    """Reynolds number of a round tube, 4 m / (pi d eta) [-].

    Parameters
    ----------
    mass_flow : array_like
        Mass flow [kg/s].
    bore : array_like
        Inner diameter [m].
    viscosity : array_like
        Dynamic viscosity [Pa s].
    """
    m, d, eta = (np.asarray(x, dtype=np.float64) for x in (mass_flow, bore, viscosity))
    return np.asarray(4.0 * m / (np.pi * d * eta))


def pressure_gradient(
    mass_flow: npt.ArrayLike,
    bore: npt.ArrayLike,
    density: npt.ArrayLike,
    viscosity: npt.ArrayLike,
) -> TubeGradient:
    """Pressure lost per length of a smooth round tube.

    Parameters
    ----------
    mass_flow : array_like
        Mass flow [kg/s].
    bore : array_like
        Inner diameter [m].
    density : array_like
        Local density [kg/m3].
    viscosity : array_like
        Local dynamic viscosity [Pa s].

    Returns
    -------
    TubeGradient
        64/Re below Re 2100, Blasius (1913) above 4000, both in between.

    Source
    ------
    Darcy-Weisbach with the laws of `friction_laminar_poiseuille` and
    `friction_turbulent_blasius_1913`; limits from Tarafder, J. Chromatogr. A 2018.
    """
    m, d, rho, eta = (
        np.asarray(x, dtype=np.float64) for x in (mass_flow, bore, density, viscosity)
    )
    re = np.maximum(reynolds_number(m, d, eta), np.finfo(np.float64).tiny)
    dynamic = 8.0 * m**2 / (np.pi**2 * rho * d**5)  # rho u^2 / (2 d)
    # m = 0 gives 64/Re = infinity times a dynamic pressure of zero
    laminar = np.where(m > 0.0, 128.0 * eta * m / (np.pi * rho * d**4), 0.0)
    turbulent = turbulent_law.friction_factor(np.maximum(re, 1.0)) * dynamic
    transition = (re > LAMINAR_BELOW) & (re < TURBULENT_ABOVE)
    gradient = np.where(re <= LAMINAR_BELOW, laminar, turbulent)
    gradient = np.where(transition, np.maximum(laminar, turbulent), gradient)
    alternative = np.where(transition, np.minimum(laminar, turbulent), gradient)
    return TubeGradient(gradient, alternative, np.broadcast_to(re, gradient.shape), transition)
