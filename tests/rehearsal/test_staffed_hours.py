"""A sequence's clock against the hours in which somebody is there; worked by hand."""

from __future__ import annotations

import datetime

import pytest
from pydantic import ValidationError

from methodlint.documents.kinds.room import Room
from methodlint.rehearsal.bench.staffed_hours import unstaffed_spans
from methodlint.rehearsal.bench.vents import AirChange, air_changes_during

HOUR = 3600.0


def _room(staffed: object = None, **fields: object) -> Room:
    return Room.model_validate({"kind": "room", "staffed": staffed, **fields})


def _at(hour: int, minute: int = 0) -> datetime.datetime:
    return datetime.datetime(2026, 11, 24, hour, minute)


DAY = {"begins": "08:00", "ends": "18:00"}


@pytest.mark.parametrize(
    ("begins", "hours", "spans"),
    [
        (_at(9), 6, []),
        (_at(8), 10, []),
        (_at(16), 4, [("18:00", "20:00")]),
        (_at(16), 19.6, [("18:00", "08:00")]),
        (_at(6), 4, [("06:00", "08:00")]),
        (_at(20), 2, [("20:00", "22:00")]),
        (_at(2), 1, [("02:00", "03:00")]),
        (_at(16), 48, [("18:00", "08:00"), ("18:00", "08:00")]),
    ],
)
def test_spans(begins: datetime.datetime, hours: float, spans: list[tuple[str, str]]) -> None:
    found = unstaffed_spans(_room(DAY), begins, hours * HOUR)
    assert found is not None
    assert [(f"{s.begins:%H:%M}", f"{s.ends:%H:%M}") for s in found] == spans


def test_always_staffed_has_no_spans_whatever_the_clock() -> None:
    assert unstaffed_spans(_room("always"), None, 30 * HOUR) == ()


def test_unknown_clock_or_hours_are_said_to_be_unknown() -> None:
    assert unstaffed_spans(_room(DAY), None, HOUR) is None
    assert unstaffed_spans(_room(), _at(9), HOUR) is None
    with pytest.raises(ValidationError, match="not a time of day"):
        _room({"begins": "eight", "ends": "18:00"})


def test_night_shift_crosses_midnight() -> None:
    found = unstaffed_spans(_room({"begins": "22:00", "ends": "06:00"}), _at(23), 8 * HOUR)
    assert found is not None
    assert [s.words for s in found] == ["2026-11-25 06:00 to 07:00"]


def test_years_end_in_one_span_without_a_loop_of_years() -> None:
    found = unstaffed_spans(_room(DAY), _at(9), 1000 * 24 * HOUR)
    assert found is not None
    assert 50 < len(found) < 70


def _rates(room: Room, begins: datetime.datetime | None, hours: float) -> list[float | str]:
    spans = unstaffed_spans(room, begins, hours * HOUR)
    return [
        round(air.rate * HOUR, 6) if isinstance(air, AirChange) else air
        for air in air_changes_during(room, spans, hours * HOUR)
    ]


def test_air_of_day_and_night() -> None:
    room = _room(DAY, air_changes="6 1/h", air_changes_at_night="1 1/h")
    assert _rates(room, _at(9), 5) == [6.0]
    assert _rates(room, _at(16), 19) == [6.0, 1.0]
    assert _rates(room, _at(20), 5) == [1.0]
    assert _rates(room, None, 5) == [6.0, 1.0]


def test_air_is_never_assumed() -> None:
    assert _rates(_room(DAY), _at(9), 5) == ["room.air_changes"]
    assert _rates(_room(DAY, air_changes="6 1/h"), _at(20), 5) == ["room.air_changes_at_night"]
