"""Few points that draw the same line as many: those that are plotted are those in the table."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

__all__ = ["few_rows"]

FloatArray = npt.NDArray[np.float64]
_FLAT = 0.004


def few_rows(x: FloatArray, series: list[FloatArray], most: int = 20) -> list[int]:
    """Choose rows so that straight lines between them stay close to every series.

    Parameters
    ----------
    x
        Rising, shape (R,).
    series
        Each of shape (R,); what is not finite does not count.
    most
        No more rows than this, both ends included.

    Returns
    -------
    list of int
        In order. Rows are added where the lines are furthest off, until all series are met to
        within 0.4 % of the largest span.
    """
    if x.size == 0:
        return []
    chosen = sorted({0, x.size - 1})
    known = [np.where(np.isfinite(values), values, np.nan) for values in series]
    spans = [float(np.nanmax(v) - np.nanmin(v)) for v in known if np.isfinite(v).any()]
    span = max(spans, default=0.0)
    if span <= 0.0:
        return chosen
    filled = [_filled(values) for values in known if np.isfinite(values).any()]
    while len(chosen) < min(most, x.size):
        off = np.zeros(x.size)
        for values in filled:
            off = np.maximum(off, np.abs(values - np.interp(x, x[chosen], values[chosen])))
        off[chosen] = 0.0
        furthest = int(np.argmax(off))
        if off[furthest] <= _FLAT * span:
            break
        chosen = sorted([*chosen, furthest])
    return chosen


def _filled(values: FloatArray) -> FloatArray:
    """Carry the nearest finite value over gaps."""
    good = np.flatnonzero(np.isfinite(values))
    return (
        values[good][np.abs(np.arange(values.size)[:, None] - good[None, :]).argmin(axis=1)]
        if (good.size < values.size)
        else values
    )
