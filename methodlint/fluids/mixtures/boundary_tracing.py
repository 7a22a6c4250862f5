"""Isothermal pressure-composition envelopes of carbon dioxide + modifier, traced from a cubic.

Used by the generator of the boundary tables and by tests, never on the ordinary path. The
unknowns are ln K1, ln K2, ln P and x1 of the liquid, much as in M. L. Michelsen, Calculation of
phase envelopes and critical points for multicomponent mixtures, Fluid Phase Equilib. 4 (1980)
1-10; all isotherms advance together.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from methodlint.fluids.peng_robinson_1976 import BinaryCubic, Interaction

Array = NDArray[np.float64]


@dataclass(frozen=True)
class PhaseEnvelope:
    """Coexisting compositions of one isotherm, from the pure modifier to its CO2-rich end.

    Attributes
    ----------
    temperature : float
        [K].
    pressure : ndarray, shape (n,)
        Bubble pressures [Pa], rising to the critical pressure (or to the saturation of CO2).
    liquid, vapour : ndarray, shape (n,)
        Mole fraction of the modifier in the two phases [-].
    supercritical : bool
        True where the envelope closes in a mixture critical point (above the critical temperature
        of CO2), false where it ends at pure CO2.

    """

    temperature: float
    pressure: Array
    liquid: Array
    vapour: Array
    supercritical: bool


def _residual(
    cubic: BinaryCubic,
    unknowns: Array,
    T: Array,
    interaction: Interaction,
    specification: Callable[[Array], Array],
) -> Array:
    ln_k1, ln_k2, ln_p, x1 = unknowns
    P = np.exp(ln_p)
    y1 = np.exp(ln_k1) * x1
    y2 = np.exp(ln_k2) * (1.0 - x1)
    total = y1 + y2
    liquid = cubic.log_fugacity_coefficients(1.0 - x1, T, P, interaction, liquid=True)
    vapour = cubic.log_fugacity_coefficients(y2 / total, T, P, interaction, liquid=False)
    return np.array(
        [
            ln_k1 + vapour[0] - liquid[0],
            ln_k2 + vapour[1] - liquid[1],
            total - 1.0,
            specification(unknowns),
        ]
    )


def _solve(
    cubic: BinaryCubic,
    start: Array,
    T: Array,
    interaction: Interaction,
    specification: Callable[[Array], Array],
) -> tuple[Array, NDArray[np.bool_]]:
    unknowns = start.copy()
    steps = (1e-6, 1e-6, 1e-7, 1e-7)
    for _ in range(25):
        base = _residual(cubic, unknowns, T, interaction, specification)
        jacobian = np.empty((T.size, 4, 4))
        for j, step in enumerate(steps):
            moved = unknowns.copy()
            moved[j] += step
            up = _residual(cubic, moved, T, interaction, specification)
            moved[j] -= 2.0 * step
            down = _residual(cubic, moved, T, interaction, specification)
            jacobian[:, :, j] = ((up - down) / (2.0 * step)).T
        bad = ~np.isfinite(jacobian).all(axis=(1, 2)) | ~np.isfinite(base).all(axis=0)
        jacobian[bad] = np.eye(4)
        base[:, bad] = 0.0
        move = -np.linalg.solve(jacobian, base.T[:, :, None])[:, :, 0].T
        largest = np.max(np.abs(move), axis=0)
        unknowns += move * np.minimum(1.0, 0.5 / np.maximum(largest, 1e-300))
        unknowns[3] = np.clip(unknowns[3], 1e-12, 1.0 - 1e-12)
        if np.all(largest[~bad] < 1e-11):
            break
    done = (np.max(np.abs(base), axis=0) < 1e-8) & ~bad
    return unknowns, done


def trace(
    cubic: BinaryCubic, T: Array, interaction: Interaction, supercritical: bool, points: int = 160
) -> list[PhaseEnvelope]:
    """Envelopes of several isotherms on the same side of the critical temperature of CO2.

    Parameters
    ----------
    cubic : BinaryCubic
        Carbon dioxide first, modifier second.
    T : ndarray, shape (m,)
        Temperatures [K], all above or all below the critical temperature of CO2.
    interaction : Interaction
        Parameters of the pair at each of them.
    supercritical : bool
        Which side.
    points : int
        Points on each envelope.

    Returns
    -------
    list of Envelope

    Raises
    ------
    ArithmeticError
        When a point does not converge.

    """
    modifier = cubic.second
    x1 = np.full(T.shape, 1e-4)
    acentric_term = 5.373 * (1.0 + modifier.acentric_factor) * (1.0 - modifier.temperature / T)
    ln_vapour_pressure = np.log(modifier.pressure) + acentric_term
    carbon = cubic.first
    ln_henry = np.log(carbon.pressure) + 5.373 * (1.0 + carbon.acentric_factor) * (
        1.0 - carbon.temperature / T
    )
    ln_p = np.log(np.exp(ln_vapour_pressure) + 1e-4 * np.exp(ln_henry))
    unknowns = np.array([ln_henry - ln_p, ln_vapour_pressure - ln_p, ln_p, x1])
    unknowns, done = _solve(cubic, unknowns, T, interaction, lambda u: u[3] - x1)
    if not done.all():
        raise ArithmeticError(f"no start of the envelope at T = {T[~done]} K")
    if supercritical:
        gap_at_start = unknowns[0] - unknowns[1]
        schedule = _distance_to_critical(points)
        targets = [gap_at_start * s for s in schedule]

        def specify(u: Array, target: Array) -> Array:
            return np.asarray(u[0] - u[1] - target)
    else:
        targets = [np.full(T.shape, t) for t in _liquid_compositions(points)]

        def specify(u: Array, target: Array) -> Array:
            return np.asarray(u[3] - target)

    history = [unknowns]
    for target in targets:
        guess = history[-1]
        if len(history) > 1:
            before, now = specify(history[-2], target), specify(history[-1], target)
            guess = history[-1] + (history[-1] - history[-2]) * (now / (before - now))
            guess[3] = np.clip(guess[3], 1e-12, 1.0 - 1e-12)
        found, done = _solve(cubic, guess, T, interaction, lambda u, t=target: specify(u, t))  # type: ignore[misc]
        if not done.all():
            raise ArithmeticError(f"the envelope stops at T = {T[~done]} K, point {len(history)}")
        history.append(found)
    path = np.array(history)
    envelopes = []
    for i, temperature in enumerate(T):
        _, ln_k2, ln_p, x = path[:, :, i].T
        envelopes.append(
            PhaseEnvelope(
                temperature=float(temperature),
                pressure=np.exp(ln_p),
                liquid=1.0 - x,
                vapour=np.exp(ln_k2) * (1.0 - x),
                supercritical=supercritical,
            )
        )
    return envelopes


def _distance_to_critical(points: int) -> Array:
    """Shares of ln K1 - ln K2 at the start, from 1 to nearly 0 (the critical point)."""
    return np.linspace(1.0, 0.0, points + 1)[1:-1]


def _liquid_compositions(points: int) -> Array:
    """Mole fractions of CO2 in the liquid, dense at both ends, up to 5e-4 before pure CO2."""
    s = np.linspace(0.0, 1.0, points + 1)[1:]
    return np.asarray((1.0 - 5e-4) * (1.0 - (1.0 - s) ** 2 * (1.0 + 2.0 * s)))
