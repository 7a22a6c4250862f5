"""Packed columns: flow resistance, porosities, hold-up volume.

Flow resistance is used on the *superficial* basis throughout,

    dP / L = phi eta u_s / dp^2  (+ inertial term of Ergun),      u_s = volume flow / cross section.

Published values on the *t0 basis* (phi_t0 = dP t0 dp^2 / (eta L^2), Bristow and Knox 1977) use
the velocity L/t0 = u_s / total porosity, so phi = phi_t0 / total porosity.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
import numpy.typing as npt

from methodlint.fluids.validity import ValidityRange

__all__ = [
    "DEFAULT_EXTERNAL_POROSITY",
    "DEFAULT_FLOW_RESISTANCE",
    "TOTAL_POROSITY_POROUS",
    "TOTAL_POROSITY_SUPERFICIALLY_POROUS",
    "VALIDITY",
    "ergun_gradient",
    "hold_up_volume",
    "inertial_share",
    "kozeny_carman_resistance",
    "superficial_flow_resistance",
]

DEFAULT_FLOW_RESISTANCE = 1000.0
"""Superficial basis [-].  Kozeny-Carman gives 844 to 1051 (constant 150, porosity 0.40 to 0.38)
and 1012 to 1261 (constant 180): 1000 lies in the middle.  Common practice, no source."""

DEFAULT_EXTERNAL_POROSITY = 0.38
"""Between the particles [-]; 0.36-0.42 (Guiochon et al., Fundamentals of Preparative and
Nonlinear Chromatography; from memory)."""

TOTAL_POROSITY_POROUS = 0.65
"""Fully porous particles [-]; 0.60-0.70 (general literature; unverified)."""

TOTAL_POROSITY_SUPERFICIALLY_POROUS = 0.52
"""Superficially porous particles [-]; 0.50-0.55 (general literature; unverified)."""

ERGUN_INERTIAL_CONSTANT = 1.75
"""Ergun, Chem. Eng. Prog. 48 (1952) 89."""

VALIDITY = ValidityRange(
    "Reynolds number of the bed over 1 - porosity",
    0.0,
    4200.0,
    model="the equation of Ergun for packed beds",
    source="Ergun 1952, stated for 1.2 to 4200 (second-hand); below it is Kozeny and Carman's law",
)
"""The march reports beds beyond it in `March.beyond_friction_law`."""

Basis = Literal["superficial", "t0"]


def kozeny_carman_resistance(
    external_porosity: npt.ArrayLike, constant: float = 180.0
) -> npt.NDArray[np.float64]:
    """Flow resistance of a bed of spheres, constant (1-eps)^2 / eps^3, superficial basis [-].

    Parameters
    ----------
    external_porosity : array_like
        Porosity between the particles [-].
    constant : float, optional
        180 (Carman 1937) or 150 (Ergun 1952); claims reach 268 (Quinn 2014), so a value from
        this formula is good to a factor of about 1.8 before any measurement.
    """
    eps = np.asarray(external_porosity, dtype=np.float64)
    return np.asarray(constant * (1.0 - eps) ** 2 / eps**3)


def superficial_flow_resistance(
    flow_resistance: float, basis: Basis, total_porosity: float
) -> float:
    """Bring a stated flow resistance to the superficial basis [-].

    Parameters
    ----------
    flow_resistance : float
        Value as stated [-].
    basis : {"superficial", "t0"}
        What velocity the value belongs to; "t0" is L/t0, the hold-up based one.
    total_porosity : float
        Share of the empty column that mobile phase fills [-]; used for basis "t0" only.

    Raises
    ------
    ValueError
        If the basis is neither word.

    Source
    ------
    Definition of the t0 basis: Bristow and Knox, Chromatographia 10 (1977) 279 (unverified).
    """
    if basis == "superficial":
        return flow_resistance
    if basis == "t0":
        return flow_resistance / total_porosity
    raise ValueError(f"basis of a flow resistance is 'superficial' or 't0', not {basis!r}")


def inertial_share(
    reynolds: npt.ArrayLike, external_porosity: float, flow_resistance: float
) -> npt.NDArray[np.float64]:
    """Inertial over viscous part of Ergun's gradient [-].

    It stays under 1 % up to a particle Reynolds number of about 0.5: analytical SFC on 2-5 um
    particles (Re 0.05-0.5) could do without the term.  It matters for preparative beds of
    10-20 um particles run fast (Re 2 and more: 4 % and more), so it is always included.

    Parameters
    ----------
    reynolds : array_like
        rho u_s dp / eta [-].
    external_porosity, flow_resistance : float
        Of the bed [-], superficial basis.
    """
    re = np.asarray(reynolds, dtype=np.float64)
    eps = external_porosity
    return np.asarray(ERGUN_INERTIAL_CONSTANT * (1.0 - eps) / eps**3 * re / flow_resistance)


def ergun_gradient(
    superficial_velocity: npt.ArrayLike,
    particle_size: npt.ArrayLike,
    flow_resistance: npt.ArrayLike,
    external_porosity: npt.ArrayLike,
    density: npt.ArrayLike,
    viscosity: npt.ArrayLike,
) -> npt.NDArray[np.float64]:
    """Pressure lost per length of bed [Pa/m], viscous and inertial part.

    Parameters
    ----------
    superficial_velocity : array_like
        Volume flow over the empty cross section [m/s].
    particle_size : array_like
        [m].
    flow_resistance : array_like
        Superficial basis [-]; 150 (1-eps)^2/eps^3 makes this Ergun's own equation.
    external_porosity : array_like
        [-], for the inertial part.
    density, viscosity : array_like
        Local values [kg/m3], [Pa s].

    Source
    ------
    S. Ergun, Chem. Eng. Prog. 48 (1952) 89; stated there for rho u dp / (eta (1-eps)) up to 4200
    (as quoted in a secondary source).
    """
    u, dp, phi, eps, rho, eta = (
        np.asarray(x, dtype=np.float64)
        for x in (
            superficial_velocity,
            particle_size,
            flow_resistance,
            external_porosity,
            density,
            viscosity,
        )
    )
    viscous = phi * eta * u / dp**2
    return np.asarray(viscous + ERGUN_INERTIAL_CONSTANT * (1.0 - eps) * rho * u**2 / (eps**3 * dp))


def hold_up_volume(length: float, bore: float, total_porosity: float) -> float:
    """Volume of mobile phase in a column [m3].

    Parameters
    ----------
    length, bore : float
        Of the bed [m].
    total_porosity : float
        [-].
    """
    return total_porosity * np.pi / 4.0 * bore**2 * length
