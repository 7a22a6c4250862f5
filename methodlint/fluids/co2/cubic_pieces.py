"""Cubic interpolation on evenly spaced nodes, in the Hermite form."""

from __future__ import annotations

import functools

import numpy as np
import numpy.typing as npt

__all__ = ["cell", "cubic_along", "hermite_weights", "line_slopes", "spline_slopes"]

FloatArray = npt.NDArray[np.float64]


def cell(x: FloatArray, count: int) -> tuple[npt.NDArray[np.intp], FloatArray]:
    """Index of the cell that holds grid coordinate `x`, and the place inside it, 0 to 1."""
    k = np.minimum(x.astype(np.intp), count - 2)
    return k, x - k


def hermite_weights(t: FloatArray) -> FloatArray:
    """Weights, shape (4, points): value and slope at the left, value and slope at the right."""
    weights = np.empty((4, t.size))
    square = t * t
    cube = square * t
    right = 3.0 * square - 2.0 * cube
    weights[0] = 1.0 - right
    weights[1] = t - 2.0 * square + cube
    weights[2] = right
    weights[3] = cube - square
    return weights


def cubic_along(
    nodes: FloatArray | tuple[FloatArray, FloatArray], k: npt.NDArray[np.intp], t: FloatArray
) -> FloatArray:
    """Cubic along a line whose `nodes` are (2, count): values and slopes."""
    values, slopes = nodes
    left, start = values.take(k), slopes.take(k)
    rise = values.take(k + 1) - left
    twist = start + slopes.take(k + 1) - 2.0 * rise
    return np.asarray(left + t * (rise + (1.0 - t) * (start - rise - t * twist)))


@functools.lru_cache(maxsize=8)
def spline_slopes(count: int) -> FloatArray:
    """Matrix that turns values at `count` unit-spaced nodes into the slopes of their cubic spline.

    The spline is the not-a-knot one: its first two and last two pieces are one cubic each.

    Raises
    ------
    ValueError
        If `count` is below 4.
    """
    return line_slopes(np.eye(count)).T.copy()


def line_slopes(values: FloatArray) -> FloatArray:
    """Slopes at unit-spaced nodes of the not-a-knot spline through `values`, along the last axis.

    The equations have three diagonals, so they are eliminated here: a general solver takes longer
    and wakes threads for it.

    Raises
    ------
    ValueError
        If there are fewer than 4 nodes.
    """
    count = values.shape[-1]
    if count < 4:
        raise ValueError(f"a not-a-knot spline needs 4 nodes, not {count}")
    lines = np.moveaxis(np.asarray(values, dtype=float), -1, 0)
    right = np.empty_like(lines)
    right[1:-1] = 3.0 * (lines[2:] - lines[:-2])
    right[0] = -2.5 * lines[0] + 2.0 * lines[1] + 0.5 * lines[2]
    right[-1] = 2.5 * lines[-1] - 2.0 * lines[-2] - 0.5 * lines[-3]
    # Rows: (1, 2), then (1, 4, 1), at the end (2, 1); `above` is what is left right of the pivot.
    above = [2.0]
    for row in range(1, count - 1):
        pivot = 4.0 - above[-1]
        right[row] = (right[row] - right[row - 1]) / pivot
        above.append(1.0 / pivot)
    right[-1] = (right[-1] - 2.0 * right[-2]) / (1.0 - 2.0 * above[-1])
    for row in range(count - 2, -1, -1):
        right[row] -= above[row] * right[row + 1]
    return np.asarray(np.moveaxis(right, 0, -1))
