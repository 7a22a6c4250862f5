"""When what leaves the pumps reaches the column and the detector, and how steep it still is."""

from __future__ import annotations

import math

import numpy as np

from methodlint.rehearsal.run.peaks import hold_up_time_at
from methodlint.rehearsal.run.rehearsal import Rehearsal

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
        [s]; the delay is the dwell volume at the flows set on the way, which downstream of a mixer is
        the mean one; inf without flow.
    """
    return _when_behind(run, time, run.dwell_volume)


def _when_behind(run: Rehearsal, time: float, volume: float) -> float:
    """Time at which what leaves the pumps at `time` has a plug of this volume behind it [s]."""
    programme = run.programme
    wanted = float(programme.pumped_volume(time)) + volume
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


def unretained_time(run: Rehearsal, injected: float = 0.0) -> float:
    """Time from injection until what is not retained has passed the packed beds.

    Parameters
    ----------
    run
        A finished rehearsal.
    injected
        Moment of the injection [s] from the start of the run.

    Returns
    -------
    float
        [s], at the flows and densities on the way; inf if the flow stands still. What the tubes
        add before and downstream of the beds is left out, so nothing injected is earlier than this.
    """
    # Of the beds 1 / t0 is passed in a second, whatever the flow and composition of that second.
    pace = np.where(np.isfinite(run.hold_up_time), 1.0 / run.hold_up_time, 0.0)
    time = np.concatenate([[injected], run.time[run.time > injected]])
    paces = np.interp(time, run.time, pace)
    passed = np.concatenate([[0.0], np.cumsum(np.diff(time) * (paces[1:] + paces[:-1]) / 2.0)])
    if passed[-1] >= 1.0:
        return float(np.interp(1.0, passed, time)) - injected
    rest, last = 1.0 - float(passed[-1]), float(paces[-1])
    return float(time[-1]) + rest / last - injected if last > 0.0 else math.inf


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
    plug = run.plug_volume
    first, last = _when_behind(run, begins, plug), _when_behind(run, ends, plug)
    if not math.isfinite(last) or last <= first:
        return 0.0
    # Behind a mixer of first order a ramp is steepest at its end, so no later time matters.
    time = np.linspace(first, last, _POINTS)
    share = run.programme.delayed_share(time, np.array([plug]))[:, 0]
    return float(np.max(np.abs(np.diff(share) / np.diff(time))))
