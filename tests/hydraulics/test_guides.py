"""Rows between guides end where they would have ended from nothing, and look at no other run."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.hydraulics.guides import guides_of_runs
from methodlint.judging.examples import lab_with
from methodlint.rehearsal import rehearse as module
from methodlint.rehearsal.rehearsal import Rehearsal
from methodlint.rehearsal.run_plan import plan_run

RAMP = """
kind: method
programme:
  - {time: 0 min, modifier_share: 3 % v/v}
  - {time: 6 min, modifier_share: 45 % v/v}
  - {time: 7 min, modifier_share: 45 % v/v}
run_length: 8 min
settling_time: 4 min
"""
NEAR_CRITICAL = """
kind: method
outlet_pressure: 90 bar
oven_temperature: 45 degC
programme:
  - {time: 0 min, modifier_share: 1 % v/v}
  - {time: 6 min, modifier_share: 25 % v/v}
run_length: 8 min
settling_time: 4 min
"""


def _rehearsed(*methods: str) -> list[Rehearsal]:
    plans = []
    for method in methods:
        documents = lab_with(method)
        plans.append(plan_run(documents["method"], (documents["column"],), documents["instrument"]))
    return module.rehearse_many(plans)


def test_every_row_lies_between_rows_that_are_marched_first() -> None:
    time = np.array([0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 5.000001, 6.0, 7.0, 9.0])
    assert guides_of_runs([time[:1], time[:2]]) is None
    guides = guides_of_runs([time, time[:1], time[:3]])
    assert guides is not None
    assert guides.first.tolist() == [
        *(True, False, False, False, True, True, True, False, True, True), True, True, False, True,
    ]  # fmt: skip
    rows = np.flatnonzero(~guides.first)
    assert guides.first[guides.before[rows]].all()
    assert guides.first[guides.behind[rows]].all()
    # 6 s lies halfway from 5.000001 s to 7 s: never from 4 s, across the jump.
    assert (guides.before[7], guides.behind[7]) == (6, 8)
    assert guides.share[7] == pytest.approx(0.5, abs=1e-6)
    # The third run's middle row lies between its own ends.
    assert (guides.before[12], guides.behind[12]) == (11, 13)


@pytest.mark.parametrize("method", [RAMP, NEAR_CRITICAL], ids=["ramp", "near critical"])
def test_guided_rows_end_where_unguided_ones_do(
    method: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    (guided,) = _rehearsed(method)
    monkeypatch.setattr(module, "guides_of_runs", lambda times: None)
    (alone,) = _rehearsed(method)
    assert guided.time.size > 100
    # Both rest within 3e-5 of where the sweeps would end after infinitely many.
    np.testing.assert_allclose(guided.pressure, alone.pressure, rtol=6e-5)
    np.testing.assert_allclose(guided.density, alone.density, rtol=1e-3)
    assert (guided.settled == alone.settled).all()


def test_a_run_is_the_same_alone_and_in_company() -> None:
    both = _rehearsed(RAMP, NEAR_CRITICAL)
    for run, method in zip(both, (RAMP, NEAR_CRITICAL), strict=True):
        (alone,) = _rehearsed(method)
        assert (run.pressure == alone.pressure).all()
        assert (run.viscosity == alone.viscosity).all()
