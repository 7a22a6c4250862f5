"""Band of the pressure drop of a run, by what is known about its column."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.drop_band import (
    CALIBRATED_BAND,
    DropBand,
    calibrated_drop_band,
    uncalibrated_drop_band,
)
from methodlint.rehearsal.plan.run_plan import RunPlan

__all__ = ["resistance_band"]


def resistance_band(plan: RunPlan, share: npt.NDArray[np.float64]) -> DropBand:
    """Relative band of a drop [-], each (R,), by measured and logged pressures.

    Parameters
    ----------
    plan
        Of the run.
    share
        Volume share of modifier in the column [-], shape (R,).
    """
    measured, logged = plan.calibrations, plan.logged
    if measured:
        own = logged is not None and bool(logged.calibrations)
        reading = logged.band if logged is not None and own else CALIBRATED_BAND
        nearest = calibrated_drop_band(share, [one.share for one in measured], reading)
        spread = np.ptp(np.log([one.flow_resistance for one in measured])) / 2.0
        nearest = DropBand(*(np.maximum(side, spread) for side in nearest))
    else:
        nearest = uncalibrated_drop_band(share)
    if logged is None or plan.train is None:
        return nearest
    # The latest readings count at once where they are the higher ones.
    bed = plan.train.segments[plan.analytical_column]
    return DropBand(nearest.below, np.maximum(nearest.above, logged.above(bed.flow_resistance)))
