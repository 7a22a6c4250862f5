"""The high limit of the pumps."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "pressure.cutoff-unsound"


def lab(high: str, instrument: str = "", cell: str = "350 bar") -> str:
    return f"""
kind: method
pressure_limits: {{high: {high}, low: 155 bar}}
---
kind: instrument
train:
  - {{part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}}
  - {{part: column}}
  - {{part: cell, name: UV cell, volume: 11 uL, pressure_rating: {cell}}}
  - {{part: regulator, name: regulator, pressure_rating: 380 bar}}
{instrument}
"""


def test_silent_inside_the_window() -> None:
    assert findings(lab("340 bar"), RULE) == []


def test_silent_where_the_instrument_enforces_a_lower_limit_itself() -> None:
    assert findings(lab("null", "trips: {high_pressure: 345 bar}"), RULE) == []
    assert findings(lab("550 bar", "trips: {high_pressure: 345 bar}"), RULE) == []


def test_silent_for_a_weak_part_with_a_relief_of_its_own() -> None:
    assert len(findings(lab("340 bar", cell="200 bar"), RULE)) == 1
    assert findings(lab("340 bar", cell="200 bar, relief: 190 bar"), RULE) == []


def test_missing_is_a_stop() -> None:
    [found] = findings(lab("null", "trips: {high_pressure: null}"), RULE)
    assert found.grade == "stop"
    assert "no high limit stops the pumps" in found.message
    assert found.remedy.startswith("set the high pressure limit to 3")


def test_an_own_limit_above_every_rating_does_not_count() -> None:
    [found] = findings(lab("null", "trips: {high_pressure: 550 bar}"), RULE)
    assert found.grade == "stop"


def test_above_what_a_plug_may_reach_is_a_caution_with_window_and_part() -> None:
    [found] = findings(lab("390 bar"), RULE)
    assert found.grade == "caution"
    assert "350 bar (rating of the " in found.message
    assert "sound is " in found.message


def test_above_the_rating_of_the_column_is_a_fault() -> None:
    """The column is rated 400 bar and nothing else stops the pumps below that."""
    [found] = findings(lab("450 bar"), RULE)
    assert found.grade == "fault"
    assert "above the column's rating of 400 bar" in found.message


def test_too_tight_says_when_it_aborts() -> None:
    [found] = findings(lab("250 bar"), RULE)
    assert found.grade == "caution"
    assert "abort every run at" in found.message
    assert found.remedy.startswith("set the high pressure limit to 3")


def test_an_empty_window_asks_for_a_trip_or_relief() -> None:
    [found] = findings(lab("340 bar", cell="200 bar"), RULE)
    assert "no limit is sound" in found.message
    assert "a trip that stops every pump, or a relief, for the UV cell at 200 bar" in found.remedy
    assert "a high limit from " in found.remedy and " to 380 bar is sound" in found.remedy
    assert not found.solutions, "nothing writes a trip into a card by itself"


def test_the_trip_that_the_words_ask_for_is_enough() -> None:
    """As the person does who has fitted it: the limit of 340 bar stands, and nothing is said."""
    text = lab("340 bar", cell="200 bar, trip: 200 bar")
    assert findings(text, RULE) == []


def test_a_run_beyond_a_rating_is_reported_by_that_rating_alone() -> None:
    yaml = lab("240 bar") + "---\nkind: column\npressure_rating: 250 bar\n"
    found = findings(yaml, RULE, "pressure.column-rating-exceeded")
    assert [one.rule for one in found] == ["pressure.column-rating-exceeded"]


def test_a_limit_that_stops_only_one_of_the_pumps_is_none() -> None:
    one = "trips: {high_pressure: 345 bar, stops: [CO2 pump]}"
    [found] = findings(lab("340 bar", one), RULE)
    assert found.grade == "stop"
    both = "trips: {high_pressure: 345 bar, stops: [CO2 pump, modifier pump]}"
    assert findings(lab("340 bar", both), RULE) == []
