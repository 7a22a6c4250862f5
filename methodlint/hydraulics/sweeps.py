"""The sweeps that bring a march to rest; see `march` for the method."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics import friction_turbulent_blasius_1913 as turbulent_law
from methodlint.hydraulics.fluid_interface import FloatArray, FluidAt
from methodlint.hydraulics.layout import Losses
from methodlint.hydraulics.tubes import LAMINAR_BELOW, TURBULENT_ABOVE

__all__ = ["HIGHEST_MODEL_PRESSURE", "Feed", "Pass", "Start", "settle"]

HIGHEST_MODEL_PRESSURE = 700.0e5
"""Properties are taken at this pressure [Pa] where the march climbs above it; such slices are
reported by the march.  No pump of the trade goes there."""

# relative to the pressure; what searches in pressures that were marched needs them smooth to this
_SETTLED = 3.0e-5
_MOST_SWEEPS = 40
# from this sweep on a slice that was turbulent once stays so: a slice at Re 2100 could otherwise
# switch its law for ever
_HOLD_FROM_SWEEP = 4


class Feed(Protocol):
    """Where the mass flow and the composition of some rows come from."""

    def deliver(self, pump_pressure: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Mass flow [kg/s], (r, 1) or (r, S), and mass fraction of modifier [-], (r, S).

        Parameters
        ----------
        pump_pressure : ndarray, (r,)
            As far as known [Pa].
        """

    def take(self, rows: npt.NDArray[np.int64]) -> Feed:
        """The same for some of the rows."""


@dataclass(frozen=True)
class Pass:
    """What one sweep found; arrays of the rows still moving."""

    faces: FloatArray
    faces_alternative: FloatArray
    density: FloatArray
    viscosity: FloatArray
    reynolds: FloatArray
    turbulent: npt.NDArray[np.bool_]
    transition: npt.NDArray[np.bool_]
    mass_flow: FloatArray
    w_modifier: FloatArray


@dataclass(frozen=True)
class Start:
    """Where to begin instead of at the outlet pressure everywhere.

    Attributes
    ----------
    faces : ndarray, (r, S+1)
        Pressures close to those that are sought [Pa].
    shrinking : ndarray, (r,)
        Upper estimate of the factor by which the moves of such rows shrink from sweep to sweep [-].
    """

    faces: FloatArray
    shrinking: FloatArray


def _sweep(
    fluid: FluidAt,
    losses: Losses,
    outlet_pressure: FloatArray,
    middle: FloatArray,
    fed: tuple[FloatArray, FloatArray],
    held: npt.NDArray[np.bool_] | None,
) -> Pass:
    mass_flow, w_modifier = fed
    known = np.minimum(middle, HIGHEST_MODEL_PRESSURE)
    rho, eta = fluid.density_and_viscosity(w_modifier, known)
    flow = mass_flow / rho
    reynolds = losses.reynolds * mass_flow / eta
    smooth = flow * (losses.viscous * eta + losses.inertial * mass_flow)
    turbulent = losses.is_tube & (reynolds > LAMINAR_BELOW)
    if held is not None:
        turbulent |= held
    transition = turbulent & (reynolds < TURBULENT_ABOVE)
    loss = lower = smooth
    if turbulent.any():
        factor = turbulent_law.friction_factor(np.maximum(reynolds, 1.0))
        rough = factor * (losses.turbulent * mass_flow) * flow
        loss = np.where(turbulent, np.where(transition, np.maximum(rough, smooth), rough), smooth)
        lower = np.where(transition, np.minimum(rough, smooth), loss)
    faces = _climb(outlet_pressure, loss)
    alternative = faces if lower is smooth else _climb(outlet_pressure, lower)
    return Pass(
        faces, alternative, rho, eta, reynolds, turbulent, transition, mass_flow, w_modifier
    )


def _climb(outlet_pressure: FloatArray, loss: FloatArray) -> FloatArray:
    faces = np.empty((loss.shape[0], loss.shape[1] + 1))
    faces[:, -1] = outlet_pressure
    faces[:, :-1] = np.cumsum(loss[:, ::-1], axis=1)[:, ::-1] + outlet_pressure[:, None]
    return faces


def settle(
    fluid: FluidAt,
    losses: Losses,
    outlet_pressure: FloatArray,
    feed: Feed,
    keep: Callable[[npt.NDArray[np.int64], Pass, bool, FloatArray], None],
    start: Start | None = None,
) -> None:
    """Sweep until every row rests; `keep` gets (rows, result, settled, shrinking) as they do."""
    rows = np.arange(outlet_pressure.shape[0])
    if start is None:
        middle = np.repeat(outlet_pressure[:, None], losses.viscous.shape[-1], axis=1)
        pump_pressure = outlet_pressure
        shrinking = np.full(rows.shape, 1.0)  # nothing is known: no row rests at once
    else:
        middle = 0.5 * (start.faces[:, 1:] + start.faces[:, :-1])
        pump_pressure = start.faces[:, 0]
        shrinking = start.shrinking
    previous = np.full(rows.shape, np.inf)
    before = middle
    held: npt.NDArray[np.bool_] | None = None
    for number in range(1, _MOST_SWEEPS + 1):
        fed = feed.deliver(pump_pressure)
        holding = held if number >= _HOLD_FROM_SWEEP else None
        found = _sweep(fluid, losses, outlet_pressure, middle, fed, holding)
        new = 0.5 * (found.faces[:, 1:] + found.faces[:, :-1])
        moved = np.max(np.abs(new - middle) / new, axis=1)
        middle = new
        # the moves shrink like a geometric series: what is still to come follows from two of
        # them, or from one where neighbours have told how fast they shrink
        if number > 1:
            shrinking = np.minimum(moved / previous, 0.5)
        resting = moved * shrinking < _SETTLED * (1.0 - shrinking)
        previous = np.maximum(moved, np.finfo(np.float64).tiny)
        if number == _MOST_SWEEPS:
            # a slice on the saturation line alternates between both densities
            unsettled = replace(found, faces=0.5 * (found.faces + before))
            keep(rows, unsettled, False, np.full(rows.shape, np.inf))
        elif resting.any():
            here, going = np.flatnonzero(resting), np.flatnonzero(~resting)
            keep(rows[here], _rows_of(found, here), True, shrinking[here])
            if not going.size:
                return
            rows, middle, previous = rows[going], middle[going], previous[going]
            found = _rows_of(found, going)
            outlet_pressure, fluid = outlet_pressure[going], fluid.take(going)
            losses, feed = losses.take(going), feed.take(going)
        before, pump_pressure, held = found.faces, found.faces[:, 0], found.turbulent


def _rows_of(found: Pass, rows: npt.NDArray[np.int64]) -> Pass:
    if rows.size == found.faces.shape[0]:
        return found
    return Pass(*(getattr(found, name)[rows] for name in Pass.__dataclass_fields__))
