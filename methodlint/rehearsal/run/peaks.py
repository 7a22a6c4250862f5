"""Widths of the expected peaks, in time and in volume, and what spoils them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.method import Method
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.states import FloatArray

Basis = Literal["width given", "plates of the peak", "plates of the column"]

_WORDS: dict[Basis, str] = {
    "width given": "from the width given for this peak",
    "plates of the peak": "from the plates given for this peak",
    "plates of the column": "a guess from the plates on the column card",
}


@dataclass(frozen=True, slots=True)
class PeakWidth:
    """How wide an expected peak is.

    Attributes
    ----------
    index
        Index in the method's `expected_peaks`.
    name
        Name of the peak.
    retention_time
        [s]; None if it is not given.
    width
        Base width, four standard deviations [s].
    basis
        Where the width comes from.
    """

    index: int
    name: str
    retention_time: float | None
    width: float
    basis: Basis

    @property
    def sigma(self) -> float:
        """Standard deviation [s]."""
        return self.width / 4.0

    @property
    def guessed(self) -> bool:
        """Whether nobody gave a figure for this very peak."""
        return self.basis == "plates of the column"

    @property
    def words(self) -> str:
        """Say where the width comes from."""
        return _WORDS[self.basis]


def base_width(retention_time: float, plates: float) -> float:
    """Width of a peak at its base.

    Parameters
    ----------
    retention_time
        [s], above 0.
    plates
        Plate number, above 0.

    Returns
    -------
    float
        w = 4 tR / sqrt(N), four standard deviations [s].

    Source
    ------
    Definition of the plate number N = 16 (tR / w)^2: IUPAC, Pure Appl. Chem. 65, 819 (1993).
    In a gradient the plates of a column overstate the width, so what is asked of a detector on
    their strength is the least that is asked.
    """
    return 4.0 * retention_time / math.sqrt(plates)


def peak_widths(method: Method, column: Column | None) -> tuple[PeakWidth, ...]:
    """Widths of those expected peaks whose width can be told.

    The width given for the peak is taken first, then the plates given for it, then the plates on
    the column card, which are a guess.

    Parameters
    ----------
    method
        The typed method.
    column
        The typed card of the analytical column.

    Returns
    -------
    tuple of PeakWidth
        In the order of the method; a peak without the figures is left out.
    """
    found = []
    card = column.plates if column is not None else None
    for index, peak in enumerate(method.expected_peaks):
        time = peak.retention_time.si if peak.retention_time is not None else None
        basis: Basis
        if peak.width is not None and peak.width.si > 0.0:
            width, basis = peak.width.si, "width given"
        elif time is not None and time > 0.0 and peak.plates is not None:
            width, basis = base_width(time, peak.plates), "plates of the peak"
        elif time is not None and time > 0.0 and card is not None:
            width, basis = base_width(time, card), "plates of the column"
        else:
            continue
        found.append(PeakWidth(index, peak.name, time, width, basis))
    return tuple(found)


def narrowest_peak(peaks: Sequence[PeakWidth]) -> PeakWidth | None:
    """The narrowest of some peaks in time; None if there are none."""
    return min(peaks, key=lambda peak: peak.width, default=None)


def first_peak(peaks: Sequence[PeakWidth]) -> PeakWidth | None:
    """The first of some peaks that have a retention time; None if there are none."""
    timed = [peak for peak in peaks if peak.retention_time is not None]
    return min(timed, key=lambda peak: peak.retention_time or 0.0, default=None)


def hold_up_time_at(run: Rehearsal, time: float) -> float | None:
    """Hold-up time with the mobile phase that is in the column at this time.

    Parameters
    ----------
    run
        A finished rehearsal.
    time
        [s] from the start of the run.

    Returns
    -------
    float or None
        [s], mass in the packed beds over mass flow; None while there is no flow.
    """
    times, hold_up = run.ask(_while_flowing)
    return float(np.interp(time, times, hold_up)) if times.size else None


def _while_flowing(run: Rehearsal) -> tuple[FloatArray, FloatArray]:
    """Times with flow [s] and the hold-up times then [s]."""
    flowing = np.isfinite(run.hold_up_time)
    return run.time[flowing], run.hold_up_time[flowing]


def column_flow_at(run: Rehearsal, time: float) -> float | None:
    """Mean volume flow inside the column at this time [m3/s]: hold-up volume over time.

    It is the flow at the column's own density, which differs from the flow set at the pumps.
    """
    hold_up = hold_up_time_at(run, time)
    return run.hold_up_volume / hold_up if hold_up else None


def volume_sigma(run: Rehearsal, peak: PeakWidth) -> float | None:
    """Standard deviation of a peak as it leaves the column, in volume.

    Parameters
    ----------
    run
        A finished rehearsal of the same method.
    peak
        One of `peak_widths`.

    Returns
    -------
    float or None
        sigma_t times the flow inside the column [m3]; None without a retention time or flow.
    """
    if peak.retention_time is None:
        return None
    flow = column_flow_at(run, peak.retention_time)
    return peak.sigma * flow if flow is not None else None


def plug_variance(volume: float) -> float:
    """Variance that an injected plug or a flow cell of this volume [m3] adds [m6].

    Source
    ------
    Rectangular distribution, V^2 / 12 (arithmetic). It is the least a mixed cell adds; a fully
    mixed one adds V^2.
    """
    return volume * volume / 12.0


def plug_of_variance(variance: float) -> float:
    """Volume [m3] of the plug that adds this variance [m6]."""
    return math.sqrt(12.0 * variance)


def plate_loss(added: float, own: float) -> float:
    """Share of the plates that an added variance costs a peak of its own variance (same unit)."""
    return added / (added + own)
