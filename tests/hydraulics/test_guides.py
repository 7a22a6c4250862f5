"""Rows between guides end where they would have ended from nothing, and look at no other run."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.hydraulics.guides import guides_of_runs
from methodlint.hydraulics.tubes import LAMINAR_BELOW
from methodlint.rehearsal.plan.run_plan import plan_run
from methodlint.rehearsal.run import rehearse as module
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rulebook.examples import lab_with

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


def test_every_row_lies_between_rows_of_earlier_turns() -> None:
    time = np.concatenate([np.arange(12.0), [11.000001], np.arange(12.0, 20.0)])
    assert guides_of_runs([time[:1], time[:2]]) is None
    guides = guides_of_runs([time, time[:1], time[:3]])
    assert guides is not None
    assert guides.turn.tolist() == [
        *(0, 1, 1, 1, 0, 1, 1, 1, 0, 1, 1), 0, 0, *(1, 1, 1, 0, 1, 1, 1, 0), 0, 0, 1, 0,
    ]  # fmt: skip
    later = np.flatnonzero(guides.turn > 0)
    assert (guides.turn[guides.before[later]] < guides.turn[later]).all()
    assert (guides.turn[guides.behind[later]] < guides.turn[later]).all()
    # 12 s lies between 11.000001 s and 13 s: its turn is the last, and never looks across a jump.
    assert (guides.before[13], guides.behind[13]) == (12, 16)
    assert guides.share[13] == pytest.approx(0.25, abs=1e-6)
    # The third run's middle row lies between its own ends.
    assert (guides.before[23], guides.behind[23]) == (22, 24)


@pytest.mark.parametrize("method", [RAMP, NEAR_CRITICAL], ids=["ramp", "near critical"])
def test_guided_rows_end_where_unguided_ones_do(
    method: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Each row by itself: a lag would carry the choice of one into the next.
    monkeypatch.setattr(module, "late_pressures", lambda time, faces, lag: faces)
    (guided,) = _rehearsed(method)
    monkeypatch.setattr(module, "guides_of_runs", lambda times: None)
    (alone,) = _rehearsed(method)
    assert guided.time.size > 50
    # Both rest within 3e-5 of where the sweeps would end after infinitely many.
    # At Re 2100, where the law of the turbulent tube takes over with a jump, a row may rest on either.
    at_the_jump = guided.transition != alone.transition
    assert guided.reynolds[at_the_jump] == pytest.approx(LAMINAR_BELOW, rel=1e-3)
    same = ~at_the_jump.any(axis=1)
    assert same.mean() > 0.95
    np.testing.assert_allclose(guided.pressure[same], alone.pressure[same], rtol=6e-5)
    np.testing.assert_allclose(guided.density[same], alone.density[same], rtol=1e-3)
    assert (guided.settled == alone.settled).all()


def test_a_run_is_the_same_alone_and_in_company() -> None:
    both = _rehearsed(RAMP, NEAR_CRITICAL)
    for run, method in zip(both, (RAMP, NEAR_CRITICAL), strict=True):
        (alone,) = _rehearsed(method)
        assert (run.pressure == alone.pressure).all()
        assert (run.viscosity == alone.viscosity).all()
