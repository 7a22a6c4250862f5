"""How far a pressure drop may lie from the computed one, by what is known about the column.

The tables are quantiles, 2.5 and 97.5 %, of the drop over the computed one, sampled by
`tests/hydraulics/test_drop_band.py`:

- flow resistance of the bed 844 to 1261 on the particle diameter (Kozeny and Carman with constant
  150 to 180 and porosity 0.38 to 0.40; `columns` takes 1000);
- particle size +-3 %, bore of the column +-1 %, flow +-2 % (common practice, no source);
- viscosity of the mixture: rules of mixing span 0.74 to 1.19 of the one used here between 20 and
  50 % modifier, little at either pure end.

A measured pressure takes out what is common to all compositions; what the rule of viscosity may
change with composition remains, with 5 % for the reading. A second one at another composition
takes out what lies between the two.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

__all__ = [
    "CALIBRATED_BAND",
    "REGULATOR_ACCURACY",
    "DropBand",
    "calibrated_drop_band",
    "uncalibrated_drop_band",
]

FloatArray = npt.NDArray[np.float64]

CALIBRATED_BAND = 0.05
"""Of the drop at the measured composition (common practice, no source)."""

REGULATOR_ACCURACY = 2e5
"""Of the outlet pressure [Pa] where the card gives none (common practice, no source)."""

SHARES = np.array([0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 1.0])
"""Volume shares of modifier in the column [-]: nodes of the tables."""

RULES_OF_VISCOSITY = (
    np.array([0.97, 0.82, 0.74, 0.74, 0.76, 0.80, 0.85, 0.95]),
    np.array([1.03, 1.08, 1.10, 1.10, 1.15, 1.19, 1.19, 1.05]),
)
"""Lowest and highest viscosity over the one used here [-] at the nodes."""

_UNCALIBRATED = (
    np.array([0.170, 0.255, 0.315, 0.315, 0.295, 0.260, 0.220, 0.175]),
    np.array([0.290, 0.285, 0.290, 0.290, 0.345, 0.395, 0.405, 0.295]),
)


class DropBand(NamedTuple):
    """Distances below and above a computed figure within which the true one lies.

    Attributes
    ----------
    below, above : ndarray or float
        Relative to the drop [-], or [Pa].

    """

    below: FloatArray
    above: FloatArray


def uncalibrated_drop_band(share: npt.ArrayLike) -> DropBand:
    """Relative band of a drop [-] at a volume share of modifier [-], without a measured pressure."""
    at = np.asarray(share, dtype=np.float64)
    return DropBand(*(np.asarray(np.interp(at, SHARES, side)) for side in _UNCALIBRATED))


def calibrated_drop_band(
    share: npt.ArrayLike, measured: Sequence[float], reading: float = CALIBRATED_BAND
) -> DropBand:
    """Relative band of a drop [-] of a column with measured pressures.

    Parameters
    ----------
    share : array_like
        Volume share of modifier in the column [-].
    measured : sequence of float
        Shares at which pressures were measured [-], at least one.
    reading : float, optional
        Relative half width of the drop at the measured composition [-].

    """
    at = np.asarray(share, dtype=np.float64)
    low, high = (np.log(side) for side in RULES_OF_VISCOSITY)
    changes = [
        [np.interp(at, SHARES, rule) - np.interp(one, SHARES, rule) for one in measured]
        for rule in (low, high)
    ]
    away = np.min(np.max(np.abs(changes), axis=0), axis=0)
    inside = (at > min(measured)) & (at < max(measured))
    away = np.where(inside, 0.5 * away, away)
    width = np.hypot(reading, away)
    return DropBand(1.0 - np.exp(-width), np.expm1(width))
