"""Flow resistance of a column from one measured pressure."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy.typing as npt

from methodlint.hydraulics.fluid_interface import FlowingFluid
from methodlint.hydraulics.metering import Metering, solve_rows
from methodlint.hydraulics.train import Train

__all__ = [
    "Calibration",
    "calibrate_column",
]

_MOST_TRIALS = 30
_MET = 1.0e-4
"""Share of the pressure to which a reading is met; finer than a march ends, a search would go to
and fro for ever."""


@dataclass(frozen=True)
class Calibration:
    """What one measured pressure says about a column.

    Attributes
    ----------
    flow_resistance : float
        Superficial basis [-].
    share : float
        Volume share of modifier that it was measured with [-].
    """

    flow_resistance: float
    share: float


def calibrate_column(
    fluid: FlowingFluid,
    train: Train,
    column: int,
    pump_pressure: float,
    metering: Metering,
    outlet_pressure: float,
    modifier_share: float,
    surroundings: npt.ArrayLike,
) -> Calibration:
    """Find the flow resistance with which the march meets a measured pump pressure.

    Parameters
    ----------
    fluid : FlowingFluid
        Mobile phase of the measurement.
    train : Train
        Flow train it was measured on.
    column : int
        Number of the column in the train.
    pump_pressure, outlet_pressure : float
        Measured at the pumps, held at the regulator [Pa, abs].
    metering : Metering
        Set flows, one row.
    modifier_share : float
        By set volume [-], settled everywhere.
    surroundings : array_like
        Temperature of slices without their own [K].

    Raises
    ------
    ValueError
        If the rest of the train alone needs that pressure or more, or no value fits.
    """
    resistance = train.segments[column].flow_resistance
    for _ in range(_MOST_TRIALS):
        segments = list(train.segments)
        segments[column] = replace(segments[column], flow_resistance=resistance)
        layout = Train(tuple(segments)).layout()
        solved = solve_rows(
            fluid,
            layout,
            metering,
            [outlet_pressure],
            modifier_share,
            layout.temperatures(surroundings),
        )
        drop = float(solved.march.segment_drops()[0, column])
        missing = pump_pressure - float(solved.march.pump_pressure[0])
        wanted = drop + missing
        if abs(missing) < _MET * pump_pressure:
            return Calibration(resistance, modifier_share)
        # tubes upstream change a little with the column's drop, hence "wanted" may pass below
        # zero once on the way, but a hundredth of the drop twice means there is no room for it
        resistance *= max(wanted / drop, 0.01)
        if resistance < 1.0e-3:
            break
    raise ValueError(
        f"a pump pressure of {round(pump_pressure / 1e5, 1):g} bar leaves no drop for the column "
        f"{train.segments[column].name!r} behind the rest of the flow train"
    )
