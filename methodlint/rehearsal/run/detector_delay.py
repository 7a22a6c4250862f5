"""How long the stream takes from a detector cell to the source behind it."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["delay_to_source"]


def delay_to_source(run: Rehearsal, cell: int, time: float) -> float:
    """Time from a cell to the source of a mass spectrometer [s].

    Mass in the tubes over mass flow; downstream of the regulator CO2 is gas and takes next to no
    time. On a branch the restrictor's volume is passed with the flow of the branch, its content
    as dense as at the splitter, so that time is the most it takes.

    Parameters
    ----------
    run
        A rehearsal that is done.
    cell
        Index of the cell in the instrument's train.
    time
        [s] from the start of the run.

    Raises
    ------
    ValueError
        If the cell is no part of the rehearsed train.
    """
    row = int(np.argmin(np.abs(run.time - time)))
    slices = _slices_after(run, cell)
    flow = run.mass_flow[row]
    moving = slices & (flow > 0.0)
    delay = float((run.volume[moving] * run.density[row][moving] / flow[moving]).sum())
    restrictor, share = _branch(run, row)
    last = np.flatnonzero(slices)
    if restrictor and share > 0.0 and last.size:
        at = int(last[-1])
        stream = float(flow[last[0]])
        delay += restrictor * float(run.density[row][at]) / (share * stream) if stream else 0.0
    return delay


def _slices_after(run: Rehearsal, cell: int) -> npt.NDArray[np.bool_]:
    if cell not in run.plan.part_of_segment:
        raise ValueError(f"part {cell} of the train is not in the rehearsed one")
    first = run.plan.part_of_segment.index(cell)
    ends = [
        number
        for number, segment in enumerate(run.train.segments)
        if number > first and segment.kind in ("splitter", "regulator")
    ]
    return (run.segment > first) & (run.segment < min(ends, default=len(run.train.segments)))


def _branch(run: Rehearsal, row: int) -> tuple[float, float]:
    """Volume of a splitter's restrictor [m3] and its share of the stream; zeros without one."""
    if run.plan.instrument is None:
        return 0.0, 0.0
    card = run.plan.instrument.model
    for part in card.train:
        if part.part == "splitter" and not part.bypassed and part.length and part.bore:
            share = float(run.split_share[row]) if run.split_share.any() else 0.0
            if not share and part.split_ratio is not None:
                share = part.split_ratio.si
            return math.pi / 4.0 * part.bore.si**2 * part.length.si, share
    return 0.0, 0.0
