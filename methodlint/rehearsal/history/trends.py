"""Statistics of readings over time that a single bad reading does not sway.

Theil and Sen's slope: H. Theil, Proc. Kon. Ned. Akad. Wetensch. 53 (1950) 386; P. K. Sen, J. Am.
Stat. Assoc. 63 (1968) 1379. Trend by Kendall's tau: H. B. Mann, Econometrica 13 (1945) 245; M. G.
Kendall, Biometrika 30 (1938) 81. Cumulative sums: E. S. Page, Biometrika 41 (1954) 100.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

__all__ = ["Slope", "Trend", "kendall_trend", "noise_of", "page_cusum", "theil_sen"]

FloatArray = npt.NDArray[np.float64]

NORMAL_OF_MAD = 1.4826
"""Standard deviation of a normal distribution over its median absolute deviation [-]."""

_MOST_POINTS = 400
"""Points beyond which a series is thinned: pairs grow as their square."""


@dataclass(frozen=True, slots=True)
class Slope:
    """Theil and Sen's slope, its intercept at time 0, and the ends of a confidence interval."""

    value: float
    intercept: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Trend:
    """Kendall's tau-b [-] and the two-sided probability of as strong a trend by chance [-]."""

    tau: float
    probability: float


def _thinned(times: FloatArray, values: FloatArray) -> tuple[FloatArray, FloatArray]:
    if times.size <= _MOST_POINTS:
        return times, values
    kept = np.unique(np.linspace(0, times.size - 1, _MOST_POINTS).round().astype(int))
    return times[kept], values[kept]


def theil_sen(
    times: npt.ArrayLike, values: npt.ArrayLike, confidence: float = 0.95
) -> Slope | None:
    """Median of the slopes of all pairs, with Sen's confidence interval.

    Parameters
    ----------
    times, values : array_like
        Shape (N,); times may be equal, such pairs have no slope.
    confidence : float
        Of the interval [-].

    Returns
    -------
    Slope or None
        None with fewer than three readings, or at one time only: two readings make no trend.
    """
    t, v = _thinned(np.asarray(times, dtype=np.float64), np.asarray(values, dtype=np.float64))
    if t.size < 3:
        return None
    first, second = np.triu_indices(t.size, 1)
    apart = t[second] - t[first]
    usable = apart != 0.0
    slopes = np.sort((v[second] - v[first])[usable] / apart[usable])
    if not slopes.size:
        return None
    value = float(np.median(slopes))
    # Sen 1968, eq. 2.6, with the variance of Kendall's score for ties.
    spread = math.sqrt(max(_variance_of_score(t, v), 0.0)) * _normal_quantile(0.5 + confidence / 2)
    ends = [
        int(np.clip(round((slopes.size - spread) / 2.0) - 1, 0, slopes.size - 1)),
        int(np.clip(round((slopes.size + spread) / 2.0), 0, slopes.size - 1)),
    ]
    return Slope(
        value,
        float(np.median(v) - value * np.median(t)),
        float(slopes[ends[0]]),
        float(slopes[ends[1]]),
    )


def kendall_trend(times: npt.ArrayLike, values: npt.ArrayLike) -> Trend | None:
    """Kendall's tau-b of values against time, by the normal approximation with ties.

    Returns
    -------
    Trend or None
        None with fewer than three readings, or where all of them are equal.
    """
    t, v = _thinned(np.asarray(times, dtype=np.float64), np.asarray(values, dtype=np.float64))
    n = t.size
    if n < 3:
        return None
    first, second = np.triu_indices(n, 1)
    score = float(np.sum(np.sign(t[second] - t[first]) * np.sign(v[second] - v[first])))
    pairs = n * (n - 1) / 2.0
    free = [pairs - sum(c * (c - 1) / 2.0 for c in _ties(x)) for x in (t, v)]
    if min(free) <= 0.0:
        return None
    tau = score / math.sqrt(free[0] * free[1])
    deviation = math.sqrt(max(_variance_of_score(t, v), 0.0))
    if deviation <= 0.0:
        return None
    return Trend(tau, math.erfc(abs(score) / deviation / math.sqrt(2.0)))


def _ties(values: FloatArray) -> list[int]:
    _, counts = np.unique(values, return_counts=True)
    return [int(count) for count in counts if count > 1]


def _variance_of_score(t: FloatArray, v: FloatArray) -> float:
    """Variance of Kendall's score with ties in both (Kendall, Rank Correlation Methods, 1970)."""
    n = t.size

    def of_ties(values: FloatArray) -> tuple[float, float, float]:
        counts = _ties(values)
        return (
            sum(c * (c - 1.0) * (2.0 * c + 5.0) for c in counts),
            sum(c * (c - 1.0) * (c - 2.0) for c in counts),
            sum(c * (c - 1.0) for c in counts),
        )

    of_t, of_v = of_ties(t), of_ties(v)
    plain = (n * (n - 1.0) * (2.0 * n + 5.0) - of_t[0] - of_v[0]) / 18.0
    third = of_t[1] * of_v[1] / (9.0 * n * (n - 1.0) * (n - 2.0))
    second = of_t[2] * of_v[2] / (2.0 * n * (n - 1.0))
    return plain + third + second


def _normal_quantile(probability: float) -> float:
    """Quantile of the standard normal distribution, by halving."""
    low, high = -40.0, 40.0
    for _ in range(100):
        middle = (low + high) / 2.0
        if 0.5 * math.erfc(-middle / math.sqrt(2.0)) < probability:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def noise_of(values: npt.ArrayLike, least: float = 0.0) -> float:
    """Standard deviation of a reading from the steps between neighbours: a drift does not count."""
    v = np.asarray(values, dtype=np.float64)
    if v.size < 3:
        return least
    steps = np.abs(np.diff(v))
    return max(float(NORMAL_OF_MAD * np.median(steps) / math.sqrt(2.0)), least)


def page_cusum(
    deviations: Sequence[float] | FloatArray, allowance: float, limit: float
) -> tuple[int, int] | None:
    """First alarm of Page's one-sided cumulative sum for a rise.

    Parameters
    ----------
    deviations : sequence of float
        From the level that is expected.
    allowance : float
        Taken off each; half of the rise that is to be found.
    limit : float
        Sum at which the alarm is given.

    Returns
    -------
    tuple of int or None
        Numbers of the reading with which the sum began to rise, and of the alarm.
    """
    total, begun = 0.0, 0
    for number, value in enumerate(deviations):
        total += value - allowance
        if total <= 0.0:
            total, begun = 0.0, number + 1
        elif total > limit:
            return begun, number
    return None
