"""Highest pressure a pump reaches at a flow."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

__all__ = ["Envelope"]


@dataclass(frozen=True)
class Envelope:
    """Flow and pressure limits of a pump, straight lines between points.

    Attributes
    ----------
    points : tuple of (float, float)
        (flow [m3/s], highest pressure [Pa, abs]), flows rising; pressures never rising.

    Raises
    ------
    ValueError
        If there is no point, flows do not rise or a pressure rises with flow.
    """

    points: tuple[tuple[float, float], ...]

    def __post_init__(self) -> None:
        if not self.points:
            raise ValueError("a flow and pressure envelope has at least one point")
        flows, pressures = zip(*self.points, strict=True)
        if any(b <= a for a, b in pairwise(flows)):
            raise ValueError("flows of an envelope must rise from point to point")
        if any(b > a for a, b in pairwise(pressures)):
            raise ValueError("pressures of an envelope must not rise with flow")

    @property
    def highest_flow(self) -> float:
        """Flow of the last point [m3/s]."""
        return self.points[-1][0]

    def pressure_limit(self, flow: npt.ArrayLike) -> npt.NDArray[np.float64]:
        """Highest pressure at a flow [Pa].

        Parameters
        ----------
        flow : array_like
            [m3/s].

        Returns
        -------
        ndarray
            That of the first point below its flow; 0 above the highest flow, where the pump
            cannot run at any pressure (so that a comparison fails rather than passes).
        """
        f = np.asarray(flow, dtype=np.float64)
        flows, pressures = zip(*self.points, strict=True)
        return np.where(f > self.highest_flow, 0.0, np.interp(f, flows, pressures))
