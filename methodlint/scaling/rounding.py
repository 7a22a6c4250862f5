"""Values as an instrument takes them; a value that comes out as it went in is kept to the letter."""

from __future__ import annotations

import math
from collections.abc import Sequence

__all__ = [
    "at_most",
    "rounded_flow",
    "rounded_pressure",
    "rounded_share",
    "significant",
    "time_decimals",
]

_ML_MIN = 1e-6 / 60.0
_SAME = 1e-9
_FINE_PRESSURE = 5e-8  # 1/Pa; from here on a whole bar is too coarse: 0.5 bar is over 0.25 %


def significant(value: float, digits: int = 3) -> float:
    """Round to so many significant digits."""
    if value == 0.0 or not math.isfinite(value):
        return value
    return round(value, digits - 1 - math.floor(math.log10(abs(value))))


def at_most(value: float, digits: int = 2) -> float:
    """The largest number of so many significant digits that is not above a value."""
    if value <= 0.0:
        return 0.0
    decimals = digits - 1 - math.floor(math.log10(value))
    scale = 10.0**decimals
    return math.floor(value * scale * (1.0 + 1e-12)) / scale


def rounded_flow(flow: float, source: float) -> float:
    """Flow [m3/s] with three digits in mL/min."""
    if abs(flow / source - 1.0) < _SAME:
        return source
    return significant(flow / _ML_MIN) * _ML_MIN


def rounded_share(share: float, source: float) -> float:
    """Share [-] in steps of 0.1 %."""
    if abs(share - source) < 5e-4:
        return source
    return round(share, 3)


def rounded_pressure(pressure: float, source: float, stiffness: float, floor: float = 0.0) -> float:
    """Outlet pressure [Pa] in whole bar, or tenths where a bar would be felt; never below a floor."""
    step = 0.1e5 if stiffness > _FINE_PRESSURE else 1e5
    if abs(pressure - source) < 0.5 * step:
        return source
    nearest = round(pressure / step) * step
    return nearest if nearest >= floor - 1.0 else math.ceil(pressure / step - 1e-9) * step


def time_decimals(segments: Sequence[float]) -> int:
    """Decimals of a minute that keep every segment [s] to about one per cent."""
    shortest = min((s for s in segments if s > 0.0), default=60.0)
    return 2 if shortest >= 30.0 else 3
