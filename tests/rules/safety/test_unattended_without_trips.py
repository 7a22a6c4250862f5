"""`safety.unattended-without-trips`; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.unattended-without-trips"
LATE = "kind: sequence\nbegins: 2026-11-24T16:00\n"


def _trip(name: str, value: str = "false") -> str:
    return f"---\nkind: instrument\ntrips: {{{name}: {value}}}\n"


def test_silent_where_somebody_is_there_day_and_night() -> None:
    room = "---\nkind: room\nstaffed: always\n"
    assert findings(LATE + _trip("low_pressure_stop") + room, RULE) == []


def test_silent_within_staffed_hours() -> None:
    assert findings(_trip("low_pressure_stop").removeprefix("---\n"), RULE) == []


def test_silent_with_every_trip() -> None:
    assert findings(LATE, RULE) == []


def test_silent_without_interlock_where_the_alarm_shuts_the_supply() -> None:
    shut = "---\nkind: supply\nflow_stop: monitor-operated shut-off\n"
    assert findings(LATE + _trip("co2_alarm_interlock") + shut, RULE) == []


def test_silent_without_waste_level_where_waste_is_plumbed() -> None:
    drain = "---\nkind: room\nwaste: [{name: drain, drain: true}]\n"
    assert findings(LATE + _trip("waste_level") + drain, RULE) == []


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("low_pressure_stop", "stop at low pressure"),
        ("leak_sensor", "leak sensor"),
        ("co2_alarm_interlock", "stop by the CO2 alarm"),
        ("waste_level", "stop at full waste"),
    ],
)
def test_fires_with_the_missing_item_and_the_clock(name: str, words: str) -> None:
    [finding] = findings(LATE + _trip(name), RULE)
    assert finding.grade == "caution"
    assert f"without: {words}" in finding.message
    assert "2026-11-24 18:00 to" in finding.message
    assert finding.at.path == ("trips", name)
    assert finding.remedy == f"arm these: {words}"


def test_a_trip_that_is_not_declared_is_not_checked() -> None:
    report = judged(LATE + _trip("leak_sensor", "null"), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("instrument.trips.leak_sensor",)]


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ("kind: sequence\nbegins: null", "sequence.begins"),
        ("kind: room\nstaffed: null", "room.staffed"),
        ("kind: instrument\ntrips: null", "instrument.trips"),
        (f'{LATE}---\nkind: room\nstaffed: {{begins: "eight", ends: "18:00"}}', "room.staffed"),
    ],
)
def test_not_checked(changes: str, missing: str) -> None:
    report = judged(changes, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [(missing,)]


def test_no_clock_is_asked_for_where_somebody_is_there_day_and_night() -> None:
    report = judged("kind: room\nstaffed: always\n---\nkind: sequence\nbegins: null", RULE)
    assert report.not_checked == []
