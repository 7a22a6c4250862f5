"""A makeup pump that no pressure trip stops: ratings of the cards, 380 bar against 350 bar."""

from __future__ import annotations

from tests.rules.harness import findings
from tests.rules.pressure.test_cutoff_unsound import lab

RULE = "pressure.pump-without-trip"

MAKEUP = "makeup: {liquid: methanol, flow: 0.2 mL/min, tee: before the regulator}"


def with_makeup(stops: str, cell: str = "350 bar", tee: str = "before the regulator") -> str:
    method, rest = lab("340 bar", stops, cell).split("---\n", 1)
    return f"{method}{MAKEUP.replace('before the regulator', tee)}\n---\n{rest}"


def test_silent_where_the_trip_stops_the_makeup_pump_too() -> None:
    every = "trips: {high_pressure: 345 bar, stops: [CO2 pump, modifier pump, makeup pump]}"
    assert findings(with_makeup(every), RULE) == []


def test_silent_where_nothing_is_said_about_the_pumps_that_a_trip_stops() -> None:
    assert findings(with_makeup("trips: {high_pressure: 345 bar}"), RULE) == []


TWO_PUMPS = "trips: {high_pressure: 345 bar, stops: [CO2 pump, modifier pump]}"


def test_silent_without_makeup_ahead_of_the_regulator() -> None:
    assert findings(lab("340 bar", TWO_PUMPS), RULE) == []
    assert findings(with_makeup(TWO_PUMPS, tee="after the regulator"), RULE) == []


def test_silent_where_a_relief_guards_the_weak_parts_or_the_pump_is_weaker() -> None:
    weaker = f"{TWO_PUMPS}\nmakeup_pump: {{pressure_rating: 340 bar}}"
    assert findings(with_makeup(weaker), RULE) == []
    assert findings(with_makeup(TWO_PUMPS, cell="350 bar, relief: 345 bar"), RULE) == []


def test_a_makeup_pump_that_goes_on_is_a_caution() -> None:
    """Makeup pump 380 bar, cell 350 bar: the cards."""
    [found] = findings(with_makeup(TWO_PUMPS), RULE)
    assert found.grade == "caution"
    assert found.at.path == ("trips", "stops")
    assert "no trip stops the makeup pump, which reaches 380 bar" in found.message
    assert "UV cell, rated 350 bar" in found.message


def test_a_trip_of_the_part_is_no_guard_against_a_pump_that_goes_on() -> None:
    [found] = findings(with_makeup(TWO_PUMPS, cell="350 bar, trip: 345 bar"), RULE)
    assert found.grade == "caution"
