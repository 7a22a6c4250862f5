"""How fronts of composition move through a train, and what they do to the flow on their way.

Two things follow from the balances of mass and volume. What was pumped has come as far as the
mass that was pumped after it fills the train, at the densities on the way. And a front pushes what
lies ahead of it by volume: where it mixes with less contraction than that did when it was pumped,
more mass flows ahead of the front than the pumps deliver. That is why the highest pressure of a
gradient often comes when the programme has dropped back and the column is still viscous.

Densities are those of some of the rows, marched before with the composition delayed by set volume.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.hydraulics.metering import mass_fraction
from methodlint.rehearsal.plan.programme import Programme

__all__ = [
    "Probed",
    "Scouted",
    "follow_fronts",
    "late_pressures",
    "probe",
    "rows_to_scout",
    "storage_lag",
]

FloatArray = npt.NDArray[np.float64]

_EVERY = 8
_LAGS = 4
_JUMP = 1e-3
_SHARES = 9
_STEP = 1e5  # Pa


@dataclass(frozen=True)
class Scouted:
    """Some rows of a run, marched before all of them.

    Attributes
    ----------
    time
        [s], shape (r,).
    pressure
        At the faces [Pa], shape (r, S+1).
    density
        In the slices [kg/m3], shape (r, S).
    w_modifier
        In the slices [-], shape (r, S).
    temperature
        In the slices [K], shape (r, S).
    head_density
        Of CO2 at the pump [kg/m3], shape (r,).
    """

    time: FloatArray
    pressure: FloatArray
    density: FloatArray
    w_modifier: FloatArray
    temperature: FloatArray
    head_density: FloatArray

    @property
    def middle(self) -> FloatArray:
        """Pressure in the middle of the slices [Pa], shape (r, S)."""
        return 0.5 * (self.pressure[:, 1:] + self.pressure[:, :-1])

    @property
    def some_rows(self) -> slice:
        """Rows whose storage is looked at."""
        return slice(None, None, max(1, self.time.size // _LAGS))

    def pressure_at(self, time: FloatArray) -> FloatArray:
        """Pressure at the faces at other times [Pa], shape (R, S+1)."""
        return _between(time, self.time, self.pressure)


@dataclass(frozen=True)
class Probed:
    """Densities of one run that its fronts and its storage follow from.

    Attributes
    ----------
    share, w_modifier
        Evenly spaced shares by set volume, and their mass fractions [-], each (K,).
    density
        Of these in every slice, at mean temperature and pressure [kg/m3], shape (K, S).
    raised
        Of some scouted rows at a pressure raised by one step [kg/m3], shape (n, S).
    """

    share: FloatArray
    w_modifier: FloatArray
    density: FloatArray
    raised: FloatArray


def probe(
    programmes: Sequence[Programme],
    tables: Sequence[dict[str, FloatArray]],
    scouted: Sequence[Scouted],
    fluid: MixtureModel,
) -> list[Probed]:
    """Find the densities of many runs of one mobile phase in one call of it."""
    known, states = [], []
    for programme, table, run in zip(programmes, tables, scouted, strict=True):
        share = np.linspace(programme.share.min(), programme.share.max(), _SHARES)
        head = np.interp(table["time"], run.time, run.head_density)
        w = mass_fraction(share, table["modifier_density"][0], float(head.mean()))
        known.append((share, w))
        rows, shape = run.some_rows, (_SHARES, run.density.shape[1])
        mean = run.temperature.mean(axis=0), run.middle.mean(axis=0)
        fronts = [w[:, None], *mean]
        raised = [run.w_modifier[rows], run.temperature[rows], run.middle[rows] + _STEP]
        states.append(
            [
                np.concatenate([np.broadcast_to(of, shape).ravel(), at.ravel()])
                for of, at in zip(fronts, raised, strict=True)
            ]
        )
    found = fluid.density(*(np.concatenate(parts) for parts in zip(*states, strict=True)))
    first, probed = 0, []
    for (share, w), run, state in zip(known, scouted, states, strict=True):
        slices = run.density.shape[1]
        rho = found[first : first + state[0].size].reshape(-1, slices)
        first += state[0].size
        probed.append(Probed(share, w, rho[:_SHARES], rho[_SHARES:]))
    return probed


def rows_to_scout(time: FloatArray) -> npt.NDArray[np.int64]:
    """Numbers of the rows that are marched first: some, both sides of every jump, the last."""
    chosen = np.zeros(time.size, dtype=np.bool_)
    chosen[::_EVERY] = chosen[-1] = True
    jumps = np.flatnonzero(np.diff(time) < _JUMP)
    chosen[jumps] = chosen[jumps + 1] = True
    return np.flatnonzero(chosen)


def follow_fronts(
    programme: Programme,
    table: dict[str, FloatArray],
    plug: FloatArray,
    stirred: int | None,
    scouted: Scouted,
    probed: Probed,
) -> tuple[FloatArray, FloatArray]:
    """Where the compositions are, and how much flows there.

    Parameters
    ----------
    programme
        What was pumped.
    table
        Columns of the run's rows: time and what the pumps are set to, (R,).
    plug
        Volume of every slice that moves as a plug [m3], shape (S,).
    stirred
        Slice of the mixer, None without one.
    scouted, probed
        Rows that were marched before, and densities from them.

    Returns
    -------
    share : ndarray
        Modifier share by set volume in every slice [-], shape (R, S).
    along : ndarray
        Mass flow in every slice over that of the pumps [-], shape (R, S).
    """
    time = table["time"]
    inside = scouted.density * plug
    ahead = _between(time, scouted.time, np.cumsum(inside, axis=1) - 0.5 * inside)
    head = np.interp(time, scouted.time, scouted.head_density)
    rate = table["co2_flow"] * head + table["modifier_flow"] * table["modifier_density"]
    pumped = np.concatenate([[0.0], np.cumsum(np.diff(time) * (rate[1:] + rate[:-1]) / 2.0)])
    came = pumped[:, None] - ahead
    left = np.interp(came, pumped, time)
    share = programme.share_leaving_mixer(left)
    if stirred is not None:
        share[:, :stirred] = programme.share_at(left[:, :stirred])
    known, w, weight = probed.share, probed.w_modifier, np.log(probed.density)
    # the mixing point, then the slices: at the inlet of each, ahead and behind at its own pressure
    behind = np.concatenate([table["pumped_share"][:, None], share[:, :-1]], axis=1)
    step = _of_shares(share, known, weight) - _of_shares(behind, known, weight)
    if stirred is not None:
        # a tank gives off what enters less what it stores: V d(rho)/dt, with V rho dw/dt = m (w_in - w)
        enters, holds = (np.interp(of[:, stirred], known, w) for of in (behind, share))
        slope = np.interp(holds, w, np.gradient(weight[:, stirred], w))
        step[:, stirred] = np.log1p(-slope * (enters - holds))
    return share, np.exp(np.cumsum(step, axis=1))


def storage_lag(
    scouted: Scouted, probed: Probed, mass_flow: FloatArray, volume: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Time by which pressures follow a change, while the train fills with denser mobile phase.

    Parameters
    ----------
    scouted, probed
        Rows that were marched before, and densities from them.
    mass_flow
        Of the pumps at these rows [kg/s], shape (r,).
    volume
        Of the slices [m3], shape (S,).

    Returns
    -------
    time, lag : ndarray
        [s], shape (n,): the first moment of the response to a step at the pumps, which is what
        each slice stores per pascal times the resistance downstream of it (Elmore 1948).
    """
    rows = scouted.some_rows
    middle, density = scouted.middle[rows], scouted.density[rows]
    stores = volume * (probed.raised - density) / _STEP
    moment = (stores * (middle - scouted.pressure[rows, -1:])).sum(axis=1)
    flowing = mass_flow[rows]
    return scouted.time[rows], np.where(flowing > 0.0, moment / np.maximum(flowing, 1e-12), 0.0)


def late_pressures(time: FloatArray, faces: FloatArray, lag: FloatArray) -> FloatArray:
    """Pressures that follow those of steady flow by a lag of first order.

    Parameters
    ----------
    time
        [s], shape (R,).
    faces
        Pressures of steady flow [Pa], shape (R, S+1); the last one is that of the regulator.
    lag
        [s], shape (R,).

    Returns
    -------
    ndarray
        [Pa], shape (R, S+1).
    """
    steps = np.diff(time) / np.maximum(lag[1:], _JUMP)
    drop = faces[:, :-1] - faces[:, -1:]
    moved = np.diff(drop, axis=0) * (-np.expm1(-steps) / steps)[:, None]
    late = np.zeros(drop.shape[1])
    for kept, row in zip(np.exp(-steps).tolist(), moved, strict=True):
        row += kept * late
        late = row
    found = faces.copy()
    found[1:, :-1] -= moved
    return found


def _between(at: FloatArray, known: FloatArray, values: FloatArray) -> FloatArray:
    """Interpolate the rows of a table, (r, S), in time."""
    if known.size < 2:
        return np.repeat(values, at.size, axis=0)
    before = np.clip(np.searchsorted(known, at, side="right") - 1, 0, known.size - 2)
    part = ((at - known[before]) / (known[before + 1] - known[before]))[:, None]
    return np.asarray(values[before] + part * (values[before + 1] - values[before]))


def _of_shares(share: FloatArray, known: FloatArray, table: FloatArray) -> FloatArray:
    """Interpolate in evenly spaced shares, each slice in its own column of the table (K, S)."""
    place = (share - known[0]) / (known[1] - known[0])
    before = np.clip(place.astype(np.int64), 0, known.size - 2)
    slices = np.arange(share.shape[1])
    low, high = table[before, slices], table[before + 1, slices]
    return np.asarray(low + (place - before) * (high - low))
