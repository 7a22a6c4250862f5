"""Whether a quantity has changed since its first good readings: when, by how much, how surely."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from methodlint.rehearsal.history.trends import (
    Slope,
    Trend,
    kendall_trend,
    noise_of,
    page_cusum,
    theil_sen,
)

__all__ = ["LevelChange", "Point", "change_of", "first_good", "outliers"]

LEAST_READINGS = 3
"""Of a level that anything is compared with, and of a change, on two days at least."""

_LATEST = 5
_DAY = 86400.0


@dataclass(frozen=True, slots=True)
class Point:
    """One reading of a series.

    Attributes
    ----------
    moment
        When it was read.
    value
        Natural logarithm of the ratio to its level at first [-].
    entry
        Number of the entry in the logbook.
    """

    moment: datetime.datetime
    value: float
    entry: int


@dataclass(frozen=True, slots=True)
class LevelChange:
    """A change of level that is surely there.

    Attributes
    ----------
    began, found
        LogReading with which it begins, and the one with which it is found.
    runs
        Readings from the one to the other.
    size
        Level of the latest readings over that of the first ones, less 1 [-].
    largest
        The largest level in between, likewise.
    slope
        Of the logarithm over days [1/d], since it began.
    trend
        Kendall's trend since the first good readings.
    noise
        Standard deviation of one reading [-].
    readings
        Number of readings.
    """

    began: Point
    found: Point
    runs: int
    size: float
    largest: float
    slope: Slope | None
    trend: Trend | None
    noise: float
    readings: int

    @property
    def has_returned(self) -> bool:
        """Whether the latest readings are back near the level at first."""
        return abs(self.size) < 0.4 * abs(self.largest)


def first_good(points: Sequence[Point], count: int) -> int:
    """Number of readings that set the level: `count`, more until they are on two days; 0 if few."""
    for number in range(max(count, LEAST_READINGS), len(points) + 1):
        if len({point.moment.date() for point in points[:number]}) >= 2:
            return number
    return 0


def outliers(points: Sequence[Point], noise: float) -> list[Point]:
    """Readings that stand alone: far from their neighbours on both sides, which agree."""
    if len(points) < LEAST_READINGS + 2:
        return []
    values = np.array([point.value for point in points])
    padded = np.concatenate([np.full(3, np.nan), values, np.full(3, np.nan)])
    near = np.lib.stride_tricks.sliding_window_view(padded, 7).copy()
    near[:, 3] = np.nan
    near.sort(axis=1)  # what is missing goes last
    count = np.sum(np.isfinite(near), axis=1)
    rows = np.arange(values.size)
    apart = np.abs(values - np.nanmedian(near, axis=1))
    spread = near[rows, count - 2] - near[:, 1]
    far = (apart > np.maximum(6.0 * noise, 0.08)) & (apart > 3.0 * spread)
    return [points[int(number)] for number in np.flatnonzero(far & (count > LEAST_READINGS))]


def change_of(
    points: Sequence[Point], threshold: float, first: int, least_noise: float, *, rise: bool
) -> LevelChange | None:
    """Look for a rise or a fall.

    A reading counts by one and a quarter of the threshold at most, so that it takes three of them:
    neither one bad reading nor two make a change.

    Parameters
    ----------
    points : sequence of Point
        In order of time.
    threshold : float
        Ratio less 1 from which a change matters [-], above 0.
    first : int
        Readings that set the level.
    least_noise : float
        Standard deviation of a reading that is assumed at least [-].

    Returns
    -------
    LevelChange or None
        None with too few readings, or without a change.
    """
    begin = first_good(points, first)
    if not begin or len(points) < begin + LEAST_READINGS:
        return None
    sign = 1.0 if rise else -1.0
    size = math.log1p(threshold) if rise else -math.log1p(-threshold)
    values = np.array([point.value for point in points])
    level = float(np.median(values[:begin]))
    noise = noise_of(values, least_noise)
    # Readings that scatter widely have to be further apart before anything is said.
    size = max(size, 4.0 * noise)
    deviations = np.clip(sign * (values[begin:] - level), -1.25 * size, 1.25 * size)
    alarm = page_cusum(deviations, 0.5 * size, max(1.5 * size, 5.0 * noise))
    if alarm is None:
        return None
    began, found = (points[begin + number] for number in alarm)
    if (points[begin + alarm[1]].moment.date() - began.moment.date()).days < 1:
        # All on one day: somebody may have had a bad day; two days make a change.
        later = [
            n
            for n in range(alarm[1], len(deviations))
            if points[begin + n].moment.date() > began.moment.date()
        ]
        if not later or float(np.median(deviations[alarm[0] : later[0] + 1])) < 0.5 * size:
            return None
        alarm = alarm[0], later[0]
        found = points[begin + later[0]]
    since = points[begin + alarm[0] :]
    days = [(p.moment - since[0].moment).total_seconds() / _DAY for p in since]
    smooth = [
        float(np.median(values[max(n - 2, begin) : n + 1])) for n in range(begin, len(values))
    ]
    largest = max(smooth, key=lambda one: sign * one) - level
    latest = float(np.median(values[-_LATEST:])) - level
    everything = [(p.moment - points[0].moment).total_seconds() / _DAY for p in points]
    return LevelChange(
        began,
        found,
        alarm[1] - alarm[0] + 1,
        math.expm1(latest),
        math.expm1(largest),
        theil_sen(days, [p.value for p in since]),
        kendall_trend(everything, values),
        noise,
        len(points),
    )
