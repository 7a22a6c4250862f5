"""Span and cooling of the oven. Five degrees above the room: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "temperature.oven-out-of-range"


def lab(oven: float, card: str = "{cooled: false}", room: str = "26 degC") -> str:
    return f"""
kind: method
oven_temperature: {oven} degC
---
kind: instrument
oven: {card}
---
kind: room
highest_temperature: {room}
"""


def test_silent_for_an_oven_with_cooling() -> None:
    assert findings(lab(15, "{cooled: true}"), RULE) == []


def test_silent_within_the_span_and_well_above_the_room() -> None:
    assert findings(lab(35), RULE) == []
    assert findings(lab(90), RULE) == []
    assert findings(lab(31), RULE) == []


def test_outside_the_span() -> None:
    [found] = findings(lab(95), RULE)
    assert found.grade == "fault"
    assert "(5 K outside)" in found.message
    [found] = findings(lab(2, "{cooled: true}"), RULE)
    assert "lowest temperature is 5 degC" in found.message
    assert found.remedy == "set the oven to 5 degC"


def test_without_cooling_near_the_room() -> None:
    [found] = findings(lab(28), RULE)
    assert "3 K too cool" in found.message
    assert found.remedy == "set the oven to 31 degC"


def test_cooling_not_stated_is_not_checked_only_where_it_matters() -> None:
    assert judged(lab(40, "{cooled: null}"), RULE).not_checked == []
    report = judged(lab(28, "{cooled: null}"), RULE)
    assert [item.missing for item in report.not_checked] == [("instrument.oven.cooled",)]


def test_room_not_stated_is_not_checked_only_where_it_matters() -> None:
    assert judged(lab(40, room="null"), RULE).not_checked == []
    report = judged(lab(28, room="null"), RULE)
    assert [item.missing for item in report.not_checked] == [("room.highest_temperature",)]
