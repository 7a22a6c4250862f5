"""Slope, trend and sums against scipy.stats and against a published table."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from methodlint.rehearsal.history.trends import (
    kendall_trend,
    noise_of,
    page_cusum,
    theil_sen,
)

RNG = np.random.default_rng(20260907)
SERIES = {
    "a line with scatter": (np.arange(40.0), 0.3 * np.arange(40.0) + RNG.normal(0.0, 2.0, 40)),
    "scatter alone": (np.arange(25.0), RNG.normal(0.0, 1.0, 25)),
    "several a day": (np.repeat(np.arange(12.0), 3), RNG.normal(0.0, 1.0, 36)),
    "rounded readings": (np.arange(30.0), np.round(0.1 * np.arange(30.0) + RNG.normal(0, 1, 30))),
    "one far away": (np.arange(15.0), np.append(np.arange(14.0), 500.0)),
    "three": (np.array([0.0, 1.0, 4.0]), np.array([1.0, 3.0, 2.0])),
}


@pytest.mark.parametrize("name", SERIES)
def test_slope_and_its_interval_are_those_of_scipy(name: str) -> None:
    times, values = SERIES[name]
    own = theil_sen(times, values, 0.95)
    known = stats.theilslopes(values, times, 0.95)
    assert own is not None
    assert own.value == pytest.approx(known.slope, rel=1e-12)
    assert own.intercept == pytest.approx(known.intercept, rel=1e-12)
    assert (own.low, own.high) == pytest.approx((known.low_slope, known.high_slope), rel=1e-12)


@pytest.mark.parametrize("name", SERIES)
def test_trend_is_that_of_scipy(name: str) -> None:
    times, values = SERIES[name]
    own = kendall_trend(times, values)
    known = stats.kendalltau(times, values, method="asymptotic")
    assert own is not None
    assert own.tau == pytest.approx(known.statistic, rel=1e-12)
    assert own.probability == pytest.approx(known.pvalue, rel=1e-9)


def test_two_readings_make_no_trend() -> None:
    assert theil_sen([0.0, 1.0], [1.0, 2.0]) is None
    assert kendall_trend([0.0, 1.0], [1.0, 2.0]) is None
    assert theil_sen([1.0, 1.0, 1.0], [1.0, 2.0, 3.0]) is None
    assert kendall_trend([0.0, 1.0, 2.0], [5.0, 5.0, 5.0]) is None


def test_cusum_is_the_published_example() -> None:
    # Deviations from 10 of Table 9.1 and the sums of Table 9.2 with K = 0.5, H = 5: the upper sum
    # passes 5 at period 29, after 7 periods above zero (Montgomery, Introduction to Statistical
    # Quality Control, 6th ed. 2009).
    readings = [
        9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.20, 10.34,
        9.03, 11.47, 10.51, 9.40, 10.08, 9.37, 10.62, 10.31, 8.52, 10.84,
        10.90, 9.33, 12.29, 11.50, 10.60, 11.08, 10.38, 11.62, 11.31, 10.52,
    ]  # fmt: skip
    alarm = page_cusum([reading - 10.0 for reading in readings], 0.5, 5.0)
    assert alarm == (22, 28)
    assert page_cusum([reading - 10.0 for reading in readings[:20]], 0.5, 5.0) is None


def test_noise_does_not_count_a_drift() -> None:
    drift = 0.01 * np.arange(400.0) + RNG.normal(0.0, 0.02, 400)
    assert noise_of(drift) == pytest.approx(0.02, rel=0.25)
    assert noise_of([1.0, 1.0], 0.015) == 0.015
