"""Temperatures around a flow train, and the density that pumps are booked with."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2 import properties as co2
from methodlint.hydraulics.train import Train

__all__ = ["AIR_PRESSURE", "AMBIENT", "booked_co2_density", "slice_temperatures"]

FloatArray = npt.NDArray[np.float64]

AMBIENT = 293.15
"""Temperature [K] of parts outside the oven, and of the modifier when it is metered."""

AIR_PRESSURE = 101325.0
"""[Pa]."""

_COMPENSATED_AT = (283.15, 150e5)
"""State whose CO2 density a mass-metered or density-compensated pump is booked with: a set
millilitre means the mass that a head at 10 degC and 150 bar would deliver. Common practice,
no source."""


def booked_co2_density(metering: str) -> float:
    """Density of CO2 behind a set millilitre [kg/m3]; NaN where the pump meters volume.

    Parameters
    ----------
    metering
        As on the instrument card: "volume", "mass" or "compensated".
    """
    return float("nan") if metering == "volume" else float(co2.density(*_COMPENSATED_AT))


def slice_temperatures(
    train: Train, segment_of: npt.NDArray[np.int64], oven: FloatArray
) -> FloatArray:
    """Temperature of every slice: room before the oven, the oven's from there on.

    The stream keeps the oven's temperature downstream of the column unless a part has its own, and
    warms up to the room downstream of a cold oven: that is the warm, unfavourable side for the phase
    boundary. The oven begins at the first preheater, or at the first packed bed without one.

    Parameters
    ----------
    train
        Flow train.
    segment_of
        Segment of every slice, shape (S,).
    oven
        Set temperature [K], shape (R,).

    Returns
    -------
    ndarray
        [K], shape (R, S).
    """
    in_oven = min([train.columns[0], *train.of_kind("preheater")])
    result = np.empty((oven.size, segment_of.size))
    starts = np.searchsorted(segment_of, np.arange(len(train.segments) + 1)).tolist()
    carried: FloatArray | float = AMBIENT
    last = train.columns[-1]
    for number, segment in enumerate(train.segments):
        if segment.temperature is not None:
            carried = segment.temperature
        elif in_oven <= number <= last:
            carried = oven[:, None]
        elif number < in_oven:
            carried = AMBIENT
        elif number == last + 1:
            carried = np.maximum(oven, AMBIENT)[:, None]
        result[:, starts[number] : starts[number + 1]] = carried
    return result
