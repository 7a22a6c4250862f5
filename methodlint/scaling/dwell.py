"""Dwell: what a gradient has to wait for between the mixing point and the column."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["DwellPlan", "largest_dwell_volume", "plan_dwell"]

_NEGLIGIBLE_SHARE_OF_HOLD_UP = 0.1
"""A difference below this share of the hold-up time does not show (common practice, no source)."""

Way = Literal["hold", "negligible", "delayed injection", "not possible"]


@dataclass(frozen=True, slots=True)
class DwellPlan:
    """How the dwell of the target is made to act like that of the source.

    Attributes
    ----------
    way
        `hold`: an initial hold of `hold`; `negligible`: nothing need be done;
        `delayed injection`: inject `delay` after the programme has begun; `not possible`.
    wanted
        Initial hold that would be exact [s], negative where the target's dwell is too large.
    hold
        Initial hold to set [s].
    delay
        Time from the start of the programme to the injection [s].
    largest_volume
        Dwell volume of the target up to which a hold would do [m3].
    allowance
        How far a hold may be from `wanted` without showing [s].
    """

    way: Way
    wanted: float
    hold: float
    delay: float
    largest_volume: float
    allowance: float

    def is_met_by(self, hold: float) -> bool:
        """Tell whether this initial hold [s] acts like the one wanted."""
        return abs(hold - self.wanted) <= self.allowance


def largest_dwell_volume(hold: float, dwell_time: float, factor: float, flow: float) -> float:
    """Dwell volume [m3] up to which a hold can stand for a dwell; see `plan_dwell`."""
    return (hold + dwell_time) * factor * flow


def plan_dwell(
    hold: float,
    dwell_time: float,
    target_dwell_time: float,
    factor: float,
    hold_up_time: float,
    target_flow: float,
    *,
    can_delay: bool,
) -> DwellPlan:
    """Make the change of composition arrive at the same column volume.

    Parameters
    ----------
    hold
        Time of the source's programme before anything changes [s].
    dwell_time, target_dwell_time
        Dwell volume over starting flow on both systems [s].
    factor
        Time scale, target over source [-].
    hold_up_time
        Of the target's column [s].
    target_flow
        [m3/s].
    can_delay
        Whether the target can inject after the start of the programme.

    Source
    ------
    (hold F + V_D) / V_column kept constant: common practice in liquid chromatography, no source.
    """
    wanted = (hold + dwell_time) * factor - target_dwell_time
    largest = largest_dwell_volume(hold, dwell_time, factor, target_flow)
    allowance = _NEGLIGIBLE_SHARE_OF_HOLD_UP * hold_up_time
    if wanted >= 0.0:
        return DwellPlan("hold", wanted, wanted, 0.0, largest, allowance)
    if -wanted <= allowance:
        return DwellPlan("negligible", wanted, 0.0, 0.0, largest, allowance)
    if can_delay:
        return DwellPlan("delayed injection", wanted, 0.0, -wanted, largest, allowance)
    return DwellPlan("not possible", wanted, 0.0, 0.0, largest, allowance)
