"""Flow of the makeup pump over a run: steady, or by its own programme."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from methodlint.documents.kinds.method import Makeup, Method
from methodlint.documents.loading import Loaded

FloatArray = npt.NDArray[np.float64]

__all__ = ["equilibration_makeup", "makeup_flow_at", "mean_makeup_flow"]


def makeup_flow_at(makeup: Makeup | None, time: npt.ArrayLike) -> FloatArray:
    """Makeup flow [m3/s] at these times [s]; linear between the rows of its programme.

    Parameters
    ----------
    makeup
        Makeup of a method; None where there is none, which is no flow.
    time
        [s] from the start of the run, any shape.
    """
    times = np.asarray(time, dtype=np.float64)
    if makeup is None:
        return np.zeros(times.shape)
    if makeup.programme:
        rows = sorted((row.time.si, row.flow.si) for row in makeup.programme)
        return np.asarray(np.interp(times, [row[0] for row in rows], [row[1] for row in rows]))
    return np.full(times.shape, makeup.flow.si if makeup.flow is not None else 0.0)


def mean_makeup_flow(makeup: Makeup | None, cycle: float) -> float:
    """Makeup flow averaged over a cycle of this length [s], in m3/s; exact for its rows."""
    if makeup is None:
        return 0.0
    if not makeup.programme or cycle <= 0.0:
        return float(makeup_flow_at(makeup, 0.0))
    times = {0.0, cycle, *(min(row.time.si, cycle) for row in makeup.programme)}
    grid = np.array(sorted(times))
    flow = makeup_flow_at(makeup, grid)
    return float(np.sum(np.diff(grid) * (flow[1:] + flow[:-1]) / 2.0) / cycle)


def equilibration_makeup(method: Loaded[Method] | None, duration: float) -> float:
    """Makeup taken before the first line [m3], at its starting flow for this time [s]."""
    if method is None:
        return 0.0
    return float(makeup_flow_at(method.model.makeup, 0.0)) * duration
