"""Validity ranges and the error raised outside them."""

import math
import pickle

import numpy as np
import pytest

from methodlint.fluids.validity import OutOfRange, StateRange, ValidityRange

TEMPERATURE = ValidityRange("temperature", 263.15, 373.15, "K", "a model")
PRESSURE = ValidityRange("pressure", 1e5, 700e5, "Pa", "a model")


def test_both_limits_belong_to_the_range():
    assert TEMPERATURE.contains([263.15, 373.15, 263.149, 373.151]).tolist() == [
        True,
        True,
        False,
        False,
    ]
    TEMPERATURE.require([263.15, 373.15])


def test_error_carries_the_worst_value_and_the_limits():
    with pytest.raises(OutOfRange) as caught:
        TEMPERATURE.require([300.0, 374.15, 253.15])
    error = caught.value
    assert (error.quantity, error.value, error.lower, error.upper, error.unit) == (
        "temperature",
        253.15,
        263.15,
        373.15,
        "K",
    )
    assert error.outside_by == pytest.approx(-10.0)
    assert str(error) == "temperature 253.15 K is outside the range of a model: 263.15 to 373.15 K"


def test_error_survives_a_process_boundary():
    error = pickle.loads(pickle.dumps(OutOfRange("pressure", 8e7, 1e5, 7e7, "Pa", "a model")))
    assert error.outside_by == pytest.approx(1e7)
    assert "a model" in str(error)


def test_nan_is_outside():
    assert not TEMPERATURE.contains(math.nan)
    assert math.isnan(TEMPERATURE.outside_by([300.0, math.nan]))
    with pytest.raises(OutOfRange):
        TEMPERATURE.require(np.nan)


def test_distance_is_signed():
    assert TEMPERATURE.outside_by(300.0) == 0.0
    assert TEMPERATURE.outside_by([262.15, 383.15]) == pytest.approx(10.0)
    assert TEMPERATURE.outside_by([243.15, 374.15]) == pytest.approx(-20.0)


def test_state_range_asks_for_both():
    both = StateRange(TEMPERATURE, PRESSURE)
    assert both.contains([300.0, 200.0, 300.0], [1e7, 1e7, 8e7]).tolist() == [True, False, False]
    assert [r.quantity for r in both] == ["temperature", "pressure"]
    both.require(300.0, 1e7)
    with pytest.raises(OutOfRange, match="pressure"):
        both.require(300.0, 8e7)
