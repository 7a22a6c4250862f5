"""The different values of an array."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

__all__ = ["distinct"]


def distinct(values: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Each value once, rising (`numpy.unique` imports masked arrays for that)."""
    ordered = np.sort(values, axis=None)
    first = np.concatenate([[True], ordered[1:] > ordered[:-1]])[: ordered.size]
    return np.asarray(ordered[first])
