"""When what leaves the pumps reaches the column and the detector, and how steep it still is."""

from __future__ import annotations

import math

import numpy as np

from methodlint.rehearsal.peaks import hold_up_time_at
from methodlint.rehearsal.rehearsal import Rehearsal

TIME_BAND = 0.05
"""Relative half width of a computed delay: porosity and density; common practice, no source."""

_POINTS = 400


def arrival_at_column(run: Rehearsal, time: float) -> float:
    """Time at which what leaves the pumps at `time` enters the first packed bed.

    Parameters
    ----------
    run
        A finished rehearsal.
    time
        [s] from the start of the run.

    Returns
    -------
    float
        [s]; the delay is the dwell volume at the flows set on the way; inf without flow.
    """
    programme = run.programme
    wanted = float(programme.pumped_volume(time)) + run.dwell_volume
    end = float(programme.time[-1])
    by_then = float(programme.pumped_volume(end))
    if wanted <= by_then:
        return float(programme.time_when_pumped(wanted))
    flow = float(programme.flow[-1])
    return end + (wanted - by_then) / flow if flow > 0.0 else math.inf


def arrival_at_detector(run: Rehearsal, time: float) -> float:
    """Time at which what leaves the pumps at `time` has passed the column, unretained [s].

    Dwell at the set flows plus the hold-up time, which is mass in the column over mass flow.
    """
    entered = arrival_at_column(run, time)
    hold_up = hold_up_time_at(run, entered) if math.isfinite(entered) else None
    return entered + hold_up if hold_up is not None else math.inf


def delivered_slope(run: Rehearsal, begins: float, ends: float) -> float:
    """Steepest change of composition at the column inlet that a ramp leads to.

    Parameters
    ----------
    run
        A finished rehearsal.
    begins, ends
        Span of the ramp at the pumps [s].

    Returns
    -------
    float
        Share per second, without sign, behind dwell volume and mixer.
    """
    first, last = arrival_at_column(run, begins), arrival_at_column(run, ends)
    if not math.isfinite(last) or last <= first:
        return 0.0
    # Behind a mixer of first order a ramp is steepest at its end, so no later time matters.
    time = np.linspace(first, last, _POINTS)
    share = run.programme.delayed_share(time, np.array([run.dwell_volume]))[:, 0]
    return float(np.max(np.abs(np.diff(share) / np.diff(time))))
