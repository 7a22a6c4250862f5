"""Rows that are marched first, so that their neighbours in time begin close to where they end.

Of a run's many times some are marched from nothing; the others start from pressures interpolated
between those, and usually rest after one sweep instead of four. Rows of other runs are never
looked at: a run is the same to the last bit alone and in any company.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.fluid_interface import FloatArray
from methodlint.hydraulics.sweeps import Start

__all__ = ["Guides", "guides_of_runs"]

_EVERY = 4
# rows closer than this stand on both sides of a jump: nothing is interpolated across it
_JUMP = 1e-3
# neighbours tell how fast moves shrink, not exactly
_SAFETY, _SLOWEST, _QUICKEST = 1.5, 0.5, 0.2


@dataclass(frozen=True)
class Guides:
    """How R rows hang together.

    Attributes
    ----------
    first : ndarray of bool, (R,)
        Rows that are marched first.
    before, behind : ndarray of int, (R,)
        Rows among those between which each row lies; itself for those.
    share : ndarray, (R,)
        How far it lies from the one towards the other [-].
    """

    first: npt.NDArray[np.bool_]
    before: npt.NDArray[np.int64]
    behind: npt.NDArray[np.int64]
    share: FloatArray

    def start(self, rows: npt.NDArray[np.int64], faces: FloatArray, shrinking: FloatArray) -> Start:
        """Where some rows start, from what is known of those that were marched first.

        Parameters
        ----------
        rows : ndarray of int, (r,)
            Rows that were not marched first.
        faces : ndarray, (R, S+1)
            Pressures [Pa].
        shrinking : ndarray, (R,)
            Factor by which the last move of each row was smaller than the one before; infinite
            for rows that did not come to rest.
        """
        before, behind, share = self.before[rows], self.behind[rows], self.share[rows, None]
        between = faces[before] + share * (faces[behind] - faces[before])
        told = _SAFETY * np.maximum(shrinking[before], shrinking[behind])
        return Start(between, np.clip(told, _QUICKEST, _SLOWEST))


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
        first=np.concatenate([part.first for part in parts]),
        before=np.concatenate([p.before + o for p, o in zip(parts, offsets, strict=False)]),
        behind=np.concatenate([p.behind + o for p, o in zip(parts, offsets, strict=False)]),
        share=np.concatenate([part.share for part in parts]),
    )


def _of_run(time: FloatArray) -> Guides:
    rows = np.arange(time.size)
    first = (rows % _EVERY == 0) | (rows == time.size - 1)
    jumps = np.flatnonzero(np.diff(time) < _JUMP)
    first[jumps] = first[jumps + 1] = True
    chosen = np.flatnonzero(first)
    place = np.searchsorted(chosen, rows, side="right") - 1
    before = chosen[place]
    behind = np.where(first, before, chosen[np.minimum(place + 1, chosen.size - 1)])
    gap = time[behind] - time[before]
    share = np.where(first, 0.0, (time - time[before]) / np.where(gap > 0.0, gap, 1.0))
    return Guides(first, before, behind, share)
