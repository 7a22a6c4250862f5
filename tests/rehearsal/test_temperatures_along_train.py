"""Temperatures of the stream before, in and behind the oven."""

from __future__ import annotations

import pytest

from tests.rules.harness import judged

ROOM = 293.15


def behind_and_in_front(oven: float) -> tuple[float, float]:
    yaml = f"kind: method\noven_temperature: {oven} degC\noutlet_pressure: 150 bar"
    run = judged(yaml, "temperature.subcritical").runs[0].run
    return float(run.temperature[0, -1]), float(run.temperature[0, 0])


@pytest.mark.parametrize(("oven", "behind"), [(40.0, 313.15), (10.0, ROOM)])
def test_behind_the_column_the_warmer_of_oven_and_room_counts(oven: float, behind: float) -> None:
    assert behind_and_in_front(oven)[0] == pytest.approx(behind)


def test_in_front_of_the_oven_it_is_the_room() -> None:
    assert behind_and_in_front(60.0)[1] == pytest.approx(ROOM)
