"""Times at which a run is computed: few for any programme, and none that matters is left out.

What is compared with: the same change written as a jump, and the exponential of a stirred tank.
"""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from methodlint.rehearsal.plan.programme import Programme, SetPoint, programme_from_rows
from tests.rehearsal.runs import rehearsed

ML = 1e-6
FLOW = 2.0 * ML / 60.0
MARKS = np.array([0.52, 0.87, 1.21, 1.24]) * ML


def _programme(
    *rows: tuple[float, float, float], mixer: float = 0.2 * ML, settling: float = 240.0
) -> Programme:
    """Rows of (time [s], share, flow)."""
    points = [SetPoint(time, share, flow, 150e5, 313.15) for time, share, flow in rows]
    return programme_from_rows(points, 540.0, settling, mixer)


@pytest.mark.parametrize("mixer", [0.0, 0.2 * ML])
@pytest.mark.parametrize("lasts", [1e-5, 1e-3, 0.06, 0.6, 6.0, 60.0])
def test_a_ramp_costs_few_times_however_brief(lasts: float, mixer: float) -> None:
    run = _programme(
        (0, 0.05, FLOW), (180, 0.05, FLOW), (180 + lasts, 0.4, FLOW), (300, 0.4, FLOW), mixer=mixer
    )
    assert run.grid(MARKS).size < 250


@pytest.mark.parametrize("mixer", [0.0, 0.2 * ML])
@pytest.mark.parametrize("lasts", [0.06, 0.6])
def test_a_brief_ramp_is_followed_like_a_jump(lasts: float, mixer: float) -> None:
    """The mean share in the beds, straight between the times, beside that at very many times."""
    run = _programme(
        (0, 0.05, FLOW), (180, 0.05, FLOW), (180 + lasts, 0.4, FLOW), (300, 0.4, FLOW), mixer=mixer
    )
    places = np.linspace(MARKS[0], MARKS[2], 200)

    def in_the_beds(time: np.ndarray) -> np.ndarray:
        return run.delayed_share(time, places).mean(axis=1)

    few, many = run.grid(MARKS), np.linspace(0.0, run.cycle, 20_000)
    between = np.interp(many, few, in_the_beds(few))
    np.testing.assert_allclose(between, in_the_beds(many), atol=0.35 * 0.015)


def test_a_thousand_uneven_rows_cost_some_dozens_of_times_each() -> None:
    drawn = np.random.default_rng(5)
    times = np.sort(drawn.uniform(0.0, 530.0, 1000))
    rows = [
        (float(time), float(share), FLOW)
        for time, share in zip(times, drawn.uniform(0.05, 0.4, 1000), strict=True)
    ]
    assert _programme((0, 0.05, FLOW), *rows).grid(MARKS).size < 60_000


def test_nothing_is_computed_while_a_ramp_is_on_a_long_way_to_the_beds() -> None:
    run = _programme((0, 0.05, FLOW), (60, 0.4, FLOW), settling=0.0)
    far = MARKS + 10.0 * ML
    time = run.grid(far)
    arrives = far[0] / FLOW
    assert ((time > 70.0) & (time < arrives - 1.0)).sum() == 0
    assert ((time > arrives) & (time < arrives + 60.0)).sum() >= 20


@pytest.mark.parametrize(("low", "high"), [(0.02, 0.05), (1.0, 1.05)])
def test_a_small_change_of_flow_is_a_change(low: float, high: float) -> None:
    low, high = low * ML / 60.0, high * ML / 60.0
    run = _programme(
        (0, 0.1, low), (100, 0.1, low), (110, 0.1, high), (200, 0.1, high), (210, 0.1, low)
    )
    assert not run.constant
    assert {100.0, 110.0, 200.0, 210.0} <= set(run.grid(MARKS).tolist())


def test_the_highest_pressure_behind_a_jump_is_told_when_it_is_reached() -> None:
    """A mixer of 0.2 mL lets e^-7 of a jump, a thousandth, through after seven of its volumes."""
    run = rehearsed("""
kind: method
run_length: 9 min
settling_time: null
programme:
  - {time: 0 min, modifier_share: 5 % v/v}
  - {time: 3 min, modifier_share: 40 % v/v, step: true}
""")
    volumes = run.dwell_volume + run.hold_up_volume + 8.0 * run.programme.mixer_volume
    latest = 180.0 + volumes / float(run.set_flow[0])
    assert 180.0 < run.highest(run.pump_pressure).time < latest < 400.0
    assert all(a < b for a, b in itertools.pairwise(run.time.tolist()))
