"""What leaves a mixer of first order, against the solution of its balance (stirred tank, textbook).

A tank of volume V takes up a share c(v) while the volume v flows through: V dc_out/dv = c - c_out.
"""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.rehearsal.plan.programme import Programme, SetPoint, programme_from_rows

ML = 1e-6
MIXER = 0.25 * ML
FLOW = 1.5 * ML / 60.0


def _programme(*rows: tuple[float, float, float]) -> Programme:
    """Rows of (time [s], share, flow); a row at the time of the one before is a jump."""
    points = [SetPoint(time, share, flow, 150e5, 313.15) for time, share, flow in rows]
    return programme_from_rows(points, rows[-1][0], 0.0, MIXER)


def _leaving(programme: Programme, time: np.ndarray) -> np.ndarray:
    return programme.delayed_share(time, np.array([0.0]))[:, 0]


def test_a_jump_leaves_as_an_exponential() -> None:
    run = _programme((0, 0.05, FLOW), (60, 0.05, FLOW), (60, 0.45, FLOW), (300, 0.45, FLOW))
    time = np.linspace(61.0, 300.0, 500)
    wanted = 0.45 - 0.40 * np.exp(-(time - 60.0) * FLOW / MIXER)
    np.testing.assert_allclose(_leaving(run, time), wanted, atol=0.40 * 0.01)


def test_a_ramp_lags_behind_by_the_volume_of_the_mixer() -> None:
    run = _programme((0, 0.05, FLOW), (600, 0.45, FLOW))
    slope = 0.40 / (600.0 * FLOW)
    volume = np.linspace(0.0, 600.0, 400) * FLOW
    wanted = 0.05 + slope * (volume - MIXER * (1.0 - np.exp(-volume / MIXER)))
    np.testing.assert_allclose(_leaving(run, volume / FLOW), wanted, atol=2e-4)


def test_what_is_left_when_a_ramp_ends_dies_away() -> None:
    """The balance solved by small steps, for a ramp, a hold and a jump back while flow rises."""
    run = _programme(
        (0, 0.05, FLOW), (30, 0.45, FLOW), (45, 0.45, 2 * FLOW), (45, 0.05, 2 * FLOW),
        (120, 0.05, 2 * FLOW),
    )  # fmt: skip
    time = np.linspace(0.0, 120.0, 60_001)
    step = np.diff(run.pumped_volume(time))
    enters = run.share_at(0.5 * (time[1:] + time[:-1]))
    leaving, wanted = 0.05, [0.05]
    for volume, share in zip(step, enters, strict=True):
        leaving += (share - leaving) * -np.expm1(-volume / MIXER)
        wanted.append(leaving)
    np.testing.assert_allclose(_leaving(run, time), wanted, atol=0.40 * 0.012)


def test_without_flow_nothing_leaves() -> None:
    run = _programme(
        (0, 0.05, FLOW), (60, 0.05, FLOW), (60, 0.05, 0.0), (90, 0.45, 0.0), (90, 0.45, FLOW),
        (91, 0.45, FLOW), (300, 0.45, FLOW),
    )  # fmt: skip
    assert _leaving(run, np.array([60.0, 75.0, 89.9])) == pytest.approx(0.05, abs=1e-6)
    wanted = 0.45 - 0.40 * np.exp(-10.0 * FLOW / MIXER)
    assert _leaving(run, np.array([100.0]))[0] == pytest.approx(wanted, abs=0.004)


def test_volume_of_a_ramp_of_flow_is_its_mean_flow_times_time() -> None:
    run = _programme((0, 0.05, FLOW), (60, 0.05, 3 * FLOW), (120, 0.05, 3 * FLOW))
    assert float(run.pumped_volume(60.0)) == pytest.approx(2 * FLOW * 60.0, rel=1e-9)
    assert float(run.pumped_volume(30.0)) == pytest.approx(1.5 * FLOW * 30.0, rel=1e-4)
    assert float(run.time_when_pumped(2 * FLOW * 60.0)) == pytest.approx(60.0, rel=1e-9)
