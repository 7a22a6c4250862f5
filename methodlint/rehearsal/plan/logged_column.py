"""What a logbook says of a column's flow resistance, ready for the plan of a run."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from methodlint.hydraulics.calibration import Calibration

__all__ = ["LoggedColumn", "LoggedColumns"]


@dataclass(frozen=True)
class LoggedColumn:
    """Flow resistance of one column by its logged pressures.

    Attributes
    ----------
    calibrations
        Resistance [-] at each composition that was read; empty with fewer than three readings on
        two days, which narrow nothing.
    band
        Relative half width at those compositions [-].
    latest
        Highest resistance that the latest readings speak of [-], and that a rise reaches by the
        day of the run. It counts at once where it is more than the others say.
    words
        From how many readings, of when, on which bench.
    """

    calibrations: tuple[Calibration, ...]
    band: float
    latest: float
    words: str

    @property
    def flow_resistance(self) -> float:
        """Middle of the calibrations [-], superficial basis."""
        values = [one.flow_resistance for one in self.calibrations]
        return float(np.exp(np.mean(np.log(values))))

    def above(self, flow_resistance: float) -> float:
        """How far the latest readings lie above a resistance, with their band [-]; 0 if below."""
        excess = self.latest / flow_resistance - 1.0
        return excess + self.band if excess > self.band else 0.0


LoggedColumns = tuple[tuple[str, LoggedColumn], ...]
"""Columns by their names; hashable, as everything that a plan is made of."""
