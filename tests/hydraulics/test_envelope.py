"""Flow and pressure envelope of a pump."""

import pytest

from methodlint.hydraulics.envelope import Envelope

ML_MIN = 1e-6 / 60.0
PUMP = Envelope(((3.0 * ML_MIN, 550e5), (5.0 * ML_MIN, 380e5)))


@pytest.mark.parametrize(
    ("flow", "bar"), [(0.0, 550.0), (3.0, 550.0), (4.0, 465.0), (5.0, 380.0), (5.01, 0.0)]
)
def test_limit_is_level_then_falls_and_ends(flow, bar):
    assert PUMP.pressure_limit(flow * ML_MIN) == pytest.approx(bar * 1e5)


@pytest.mark.parametrize(
    "points", [(), ((1.0, 1e5), (1.0, 1e5)), ((1.0, 1e5), (2.0, 2e5))], ids=str
)
def test_points_in_disorder_are_refused(points):
    with pytest.raises(ValueError, match="envelope"):
        Envelope(points)
