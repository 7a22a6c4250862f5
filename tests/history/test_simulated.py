"""Simulated months: sound ones stay silent, a planted change is found within a few runs."""

from __future__ import annotations

import statistics
from collections.abc import Iterator

import pytest

from methodlint.rehearsal.history.history import History, history_of
from methodlint.rehearsal.history.thresholds import Thresholds
from tests.history.simulated import Planted, Simulated, simulated


def _history(one: Simulated) -> History:
    return history_of(one.readings, [], Thresholds())


def _alarms(history: History) -> Iterator[tuple[str, int]]:
    """What was found, and the entry with which it was found; misread values are no alarm."""
    for one in history.columns:
        for name, change in (("rise", one.rise), ("fall", one.fall)):
            if change is not None:
                yield name, change.found.entry
    for peak in history.peaks:
        changes = {"retention": peak.retention_change, "plates": peak.plates_fall}
        yield from ((name, c.found.entry) for name, c in changes.items() if c is not None)
    yield from (("tubes", one.entry) for one in history.blocked)
    yield from (("CO2", one.last) for one in history.weighed if one.differs)
    yield from (("benches", one.moment.entry) for one in history.steps)


def test_one_bad_reading_is_named_and_moves_nothing() -> None:
    sound = simulated(11)
    reading = sound.readings[60]
    assert reading.start is not None
    sound.readings[60] = type(reading)(**{**vars(reading), "start": reading.start + 60e5})
    history = _history(sound)
    assert list(_alarms(history)) == []
    assert 60 in [point.entry for one in history.columns for point in one.alone]


def test_two_readings_make_no_change() -> None:
    sound = simulated(12, runs=42)
    late = [one for one in sound.readings if one.column == "column-1"][-2:]
    for one in late:
        assert one.start is not None
        sound.readings[one.entry] = type(one)(**{**vars(one), "start": one.start + 40e5})
    assert [name for name, _ in _alarms(_history(sound)) if name == "rise"] == []


@pytest.mark.long
def test_sound_months_raise_at_most_one_alarm_in_a_hundred() -> None:
    reported = {
        seed: found for seed in range(200) if (found := list(_alarms(_history(simulated(seed)))))
    }
    assert len(reported) <= 2, reported


CHANGES = {
    "a frit that clogs at once": ("rise", Planted(resistance=lambda n: 1.3), 6),
    "a frit that clogs slowly": ("rise", Planted(resistance=lambda n: 1.0 + 0.005 * n), 60),
    "a void": ("fall", Planted(resistance=lambda n: 0.75, plates=lambda n: 0.6), 6),
    "plates that fall": ("plates", Planted(plates=lambda n: 0.6), 6),
    "retention that drifts": ("retention", Planted(retention=lambda n: 1.0 + 0.002 * n), 60),
    "a leak": ("CO2", Planted(leak=0.3), 4),
    "tubes that block": (
        "tubes",
        Planted(resistance=lambda n: 1.3, columns=("column-1", "column-2")),
        40,
    ),
}


@pytest.mark.long
@pytest.mark.parametrize("name", CHANGES)
def test_planted_change_is_found(name: str) -> None:
    wanted, plant, most = CHANGES[name]
    delays = []
    for seed in range(1000, 1029):
        plant.at = 30 + seed % 20
        one = simulated(seed, 140, plant)
        found = [entry for kind, entry in _alarms(_history(one)) if kind == wanted]
        assert found, f"{name} is missed with seed {seed}"
        own = [r for r in one.readings if r.column in plant.columns or wanted == "CO2"]
        delays.append(sum(plant.at <= r.entry <= min(found) for r in own))
    assert statistics.median(delays) <= most, delays
