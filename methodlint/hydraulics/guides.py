"""Rows that are marched first, so that their neighbours in time begin close to where they end.

Of a run's many times some are marched first, from nothing or from pressures that are close; the
rest starts from pressures interpolated between those, and usually rests after one sweep. Rows of other runs are never looked at: a run is the same to the last bit alone and in any
company.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.fluid_interface import FloatArray
from methodlint.hydraulics.sweeps import Start

__all__ = ["SLOWEST", "Guides", "guides_of_runs"]

_EVERY = (4,)
# rows closer than this stand on both sides of a jump: the last rows start from both of them
_JUMP = 1e-3
# neighbours tell how fast moves shrink, not exactly
_SAFETY, SLOWEST, _QUICKEST = 1.5, 0.5, 0.03


@dataclass(frozen=True)
class Guides:
    """How R rows hang together.

    Attributes
    ----------
    turn : ndarray of int, (R,)
        0 for rows that are marched first, from nothing; then those of 1, of 2 and so on.
    before, behind : ndarray of int, (R,)
        Rows of earlier turns between which each row lies; itself for those of turn 0.
    share : ndarray, (R,)
        How far it lies from the one towards the other [-].
    """

    turn: npt.NDArray[np.int64]
    before: npt.NDArray[np.int64]
    behind: npt.NDArray[np.int64]
    share: FloatArray

    def start(self, rows: npt.NDArray[np.int64], faces: FloatArray, shrinking: FloatArray) -> Start:
        """Where some rows start, from what is known of those that were marched first.

        Parameters
        ----------
        rows : ndarray of int, (r,)
            Rows of the same turn, not of the first.
        faces : ndarray, (R, S+1)
            Pressures [Pa].
        shrinking : ndarray, (R,)
            Factor by which the last move of each row was smaller than the one before; infinite
            for rows that did not come to rest.
        """
        before, behind, share = self.before[rows], self.behind[rows], self.share[rows, None]
        between = faces[before] + share * (faces[behind] - faces[before])
        told = _SAFETY * np.maximum(shrinking[before], shrinking[behind])
        return Start(between, np.clip(told, _QUICKEST, SLOWEST))


def guides_of_runs(times: Sequence[FloatArray]) -> Guides | None:
    """Choose the guides of runs whose rows follow each other.

    Parameters
    ----------
    times : sequence of ndarray, (R_i,)
        Rising times of each run [s].

    Returns
    -------
    Guides or None
        None where no run has a row between others.
    """
    if all(time.size <= 2 for time in times):
        return None
    parts = [_of_run(time) for time in times]
    offsets = np.cumsum([0, *(time.size for time in times)])
    return Guides(
        turn=np.concatenate([part.turn for part in parts]),
        before=np.concatenate([p.before + o for p, o in zip(parts, offsets, strict=False)]),
        behind=np.concatenate([p.behind + o for p, o in zip(parts, offsets, strict=False)]),
        share=np.concatenate([part.share for part in parts]),
    )


def _of_run(time: FloatArray) -> Guides:
    rows = np.arange(time.size)
    turn = np.full(time.size, len(_EVERY))
    jumps = np.flatnonzero(np.diff(time) < _JUMP)
    turn[jumps] = turn[jumps + 1] = len(_EVERY) - 1
    for number in reversed(range(len(_EVERY))):
        turn[:: _EVERY[number]] = number
    turn[-1] = 0
    before, behind = rows.copy(), rows.copy()
    for number in range(1, len(_EVERY) + 1):
        known, own = np.flatnonzero(turn < number), np.flatnonzero(turn == number)
        place = np.searchsorted(known, own)
        before[own], behind[own] = known[place - 1], known[place]
    gap = time[behind] - time[before]
    share = np.where(turn > 0, (time - time[before]) / np.where(gap > 0.0, gap, 1.0), 0.0)
    return Guides(turn, before, behind, share)
