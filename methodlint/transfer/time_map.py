"""Times of the source on the target: scaled by hold-up times, moved by the dwell."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from methodlint.scaling.dwell import DwellPlan, plan_dwell
from methodlint.scaling.geometry import volume_ratio
from methodlint.scaling.rows import changes_composition, initial_hold
from methodlint.transfer.attempt import Attempt
from methodlint.transfer.sides import Sides

__all__ = ["TimeMap", "make_time_map"]

_AS_GEOMETRY = 0.005
"""Hold-up times that agree with geometry this well at every corner are taken as geometry gives
them: the figures stay those that a chemist expects."""


@dataclass(frozen=True)
class TimeMap:
    """From times of the source to times of the target [s].

    Attributes
    ----------
    times
        Of the source's rows [s].
    factors
        Hold-up time of the target over that of the source, at each row [-].
    dwell
        How the dwell is made up for; None for an isocratic method.
    hold
        Time of the source's programme before its composition changes [s].
    shift
        Moves every row behind the hold [s].
    source_delay
        From the start of the source's programme to its injection [s].
    """

    times: tuple[float, ...]
    factors: tuple[float, ...]
    steps: tuple[bool, ...]
    dwell: DwellPlan | None
    hold: float
    shift: float
    source_delay: float = 0.0

    @property
    def first_factor(self) -> float:
        """At the starting composition [-]."""
        return self.factors[0]

    def at(self, time: float) -> float:
        """Time on the target at which as many hold-up volumes have passed [s]."""
        total, last = 0.0, 0.0
        segments = zip(pairwise(self.times), pairwise(self.factors), self.steps[1:], strict=True)
        for (begins, ends), (before, behind), step in segments:
            if time <= begins:
                break
            until = min(time, ends)
            total += (until - begins) * (before if step else 0.5 * (before + behind))
            last = until
        if not self.times or time > self.times[-1]:
            last = self.times[-1] if self.times else 0.0
            total += (time - last) * self.factors[-1]
        if self.times and self.times[0] > 0.0:
            total += min(time, self.times[0]) * self.factors[0]
        return total

    @property
    def delay(self) -> float:
        """From the start of the programme to the injection [s]."""
        return self.dwell.delay if self.dwell is not None else 0.0

    def row(self, time: float) -> float:
        """Time of a programme row on the target [s]."""
        if self.dwell is None:
            return self.at(time)
        if time <= self.hold:
            return time / self.hold * self.dwell.hold if self.hold > 0.0 else 0.0
        injected = self.at(self.source_delay)
        return max(self.at(time) - injected + self.shift + self.delay, self.dwell.hold)

    def end(self, run_length: float) -> float:
        """Run length on the target [s], counted from the start of the programme as before."""
        return self.at(run_length) - self.at(self.source_delay) + self.delay


def make_time_map(sides: Sides, tried: Attempt) -> TimeMap:
    """Scale by mass-based hold-up times, and plan the dwell."""
    factors = []
    for corner in sides.corner_of:
        source, target = sides.states[corner], tried.states[corner]
        factors.append(target.hold_up_time / source.hold_up_time)
    geometry = volume_ratio(sides.source.bed, sides.target.bed, hold_up=True) / tried.factor
    if abs(geometry - 1.0) < 1e-9:
        geometry = 1.0
    if all(abs(factor / geometry - 1.0) < _AS_GEOMETRY for factor in factors):
        factors = [geometry] * len(factors)
    times = tuple(row.time for row in sides.rows)
    steps = tuple(row.step for row in sides.rows)
    if not changes_composition(sides.rows):
        return TimeMap(times, tuple(factors), steps, None, 0.0, 0.0)
    hold = initial_hold(sides.rows)
    injection = sides.typed.injection
    late = injection.after_start.si if injection and injection.after_start else 0.0
    dwell_time = sides.source.dwell_volume / sides.rows[0].flow
    target_dwell = sides.target.dwell_volume / tried.rows[0].flow
    autosampler = sides.target.card.autosampler
    dwell = plan_dwell(
        hold - late,
        dwell_time,
        target_dwell,
        factors[0],
        tried.states[sides.corner_of[0]].hold_up_time,
        tried.rows[0].flow,
        can_delay=bool(autosampler and autosampler.injects_after_start),
    )
    shift = factors[0] * dwell_time - target_dwell
    return TimeMap(times, tuple(factors), steps, dwell, hold, shift, late)
