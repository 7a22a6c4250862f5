"""Flow and pressure envelope of a pump."""

import pytest

from methodlint.hydraulics.envelope import Envelope

ML_MIN = 1e-6 / 60.0
PUMP = Envelope(((3.0 * ML_MIN, 600e5), (5.0 * ML_MIN, 400e5)))


@pytest.mark.parametrize(
    ("flow", "bar"), [(0.0, 600.0), (3.0, 600.0), (4.0, 500.0), (5.0, 400.0), (5.01, 0.0)]
)
def test_limit_is_level_then_falls_and_ends(flow, bar):
    assert PUMP.pressure_limit(flow * ML_MIN) == pytest.approx(bar * 1e5)


@pytest.mark.parametrize(
    ("bar", "flow"), [(100, 5.0), (400, 5.0), (500, 4.0), (600, 3.0), (601, 0)]
)
def test_highest_flow_at_a_pressure(bar, flow):
    assert PUMP.flow_limit(bar * 1e5) == pytest.approx(flow * ML_MIN)


def test_level_stretch_gives_its_far_end():
    flat = Envelope(((1.0, 600e5), (2.0, 600e5), (3.0, 400e5)))
    assert flat.flow_limit(600e5) == 2.0


@pytest.mark.parametrize(
    "points", [(), ((1.0, 1e5), (1.0, 1e5)), ((1.0, 1e5), (2.0, 2e5))], ids=str
)
def test_points_in_disorder_are_refused(points):
    with pytest.raises(ValueError, match="envelope"):
        Envelope(points)
