"""The worst of a pressure against its limit, and the moment that is told of it."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.hydraulics.drop_band import DropBand
from methodlint.judging.shared.overpressure import worst_against
from methodlint.rehearsal.plan.run_plan import plan_run
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse
from methodlint.rulebook.examples import lab_with

GRADIENT = """
kind: method
programme:
  - {time: 0 min, modifier_share: 5 % v/v}
  - {time: 6 min, modifier_share: 40 % v/v}
  - {time: 9 min, modifier_share: 40 % v/v}
run_length: 10 min
settling_time: 4 min
"""
LIMIT = 300e5


def no_band(run: Rehearsal) -> DropBand:
    return DropBand(np.zeros(run.time.size), np.zeros(run.time.size))


@pytest.fixture(scope="module")
def run() -> Rehearsal:
    documents = lab_with(GRADIENT)
    return rehearse(plan_run(documents["method"], (documents["column"],), documents["instrument"]))


def plateau(run: Rehearsal, height: float, last_digits: float) -> np.ndarray:
    """A pressure that rises to a height, stays there give or take some digits, and falls."""
    pressure = np.interp(run.time / 60.0, [0.0, 6.0, 9.0, 9.5], [0.5, 1.0, 1.0, 0.5]) * height
    late = np.flatnonzero((run.time >= 360.0) & (run.time <= 540.0))[-1]
    pressure[late] *= 1.0 + last_digits
    return pressure


def test_a_plateau_is_told_by_its_beginning(run: Rehearsal) -> None:
    found = worst_against(run, plateau(run, 320e5, 1e-4), LIMIT, "fault", band=no_band(run))
    assert found is not None
    assert found.value == pytest.approx(320e5 * (1.0 + 1e-4), rel=1e-12)
    assert run.time[found.row] == pytest.approx(360.0, abs=1e-6)


def test_a_peak_is_told_where_it_is(run: Rehearsal) -> None:
    found = worst_against(run, plateau(run, 320e5, 1e-2), LIMIT, "fault", band=no_band(run))
    assert found is not None
    assert 360.0 < run.time[found.row] <= 540.0
    assert found.when.start is not None and found.when.start < 360.0


def test_the_worst_is_where_the_limit_is_nearest_not_where_the_pressure_is_highest(
    run: Rehearsal,
) -> None:
    pressure = plateau(run, 280e5, 0.0)
    limit = np.where(run.time > 600.0, 100e5, 400e5)
    found = worst_against(run, pressure, limit, "fault", band=no_band(run))
    assert found is not None
    assert run.time[found.row] > 600.0
    assert found.limit == 100e5


def test_moments_of_the_same_load_under_other_limits_are_not_mixed(run: Rehearsal) -> None:
    pressure, limit = np.full(run.time.size, 100e5), np.full(run.time.size, 400e5)
    pressure[3], limit[3] = 330e5, 300e5
    pressure[-3], limit[-3] = 165.02e5, 150e5
    found = worst_against(run, pressure, limit, "fault", band=no_band(run))
    assert found is not None
    assert (found.row, found.limit) == (run.time.size - 3, 150e5)


def test_what_stays_far_below_is_silent(run: Rehearsal) -> None:
    assert worst_against(run, plateau(run, 200e5, 0.0), LIMIT, "fault") is None
