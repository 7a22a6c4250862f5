"""`safety.no-co2-monitor`: nobody is told of a release."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.no-co2-monitor"
NONE = "kind: room\nmonitors: []\nvolume: 60 m3\n"
INSIDE = "---\nkind: supply\nplace: inside\n"
SMALL = f"{INSIDE}net_mass: 3 kg\nfull_mass: 4 kg\n"


def test_silent_for_an_outdoor_supply_with_its_flow_trip_and_ducted_vents() -> None:
    assert findings(NONE, RULE) == []


def test_silent_with_a_monitor() -> None:
    assert findings(NONE.replace("[]", "[{gas: CO2}]") + INSIDE, RULE) == []


def test_silent_below_half_a_per_cent() -> None:
    """0.5 kg in 60 m3: 0.45 %; worked by hand."""
    tiny = f"{INSIDE}net_mass: 0.5 kg\nfull_mass: 0.5 kg\n"
    assert findings(NONE + tiny, RULE) == []


def test_stop_above_four_per_cent() -> None:
    """28.8 % from 37.5 kg in 60 m3, worked; 4 %: NIOSH 1994."""
    [finding] = findings(NONE + INSIDE, RULE)
    assert finding.grade == "stop"
    assert "28.8 % CO2" in finding.message
    assert "5000 and 15 000 ppm" in finding.remedy
    assert "no single change" not in finding.remedy


def test_caution_for_less_with_somebody_there() -> None:
    """4 kg in 60 m3: 3.6 %; worked by hand."""
    [finding] = findings(NONE + SMALL, RULE)
    assert finding.grade == "caution"


def test_stop_for_less_when_nobody_is_there() -> None:
    late = "---\nkind: sequence\nbegins: 2026-11-24T16:00\n"
    [finding] = findings(NONE + SMALL + late, RULE)
    assert finding.grade == "stop"
    assert "nobody is there" in finding.message


def test_monitors_are_asked_for() -> None:
    report = judged(NONE.replace("[]", "null") + INSIDE, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("room.monitors",)]


def monitors(*texts: str) -> str:
    return NONE.replace("[]", "[" + ", ".join(f"{{{text}}}" for text in texts) + "]") + INSIDE


def test_silent_with_a_monitor_that_serves_whatever_the_others_do() -> None:
    serves = "gas: CO2, low: true, audible: true, tested: 2026-10-12"
    assert findings(monitors(serves), RULE) == []
    assert findings(monitors("gas: CO2, low: false", serves), RULE) == []
    assert findings(NONE.replace("[]", "[{gas: CO2, audible: false}]"), RULE) == []


@pytest.mark.parametrize(
    ("monitor", "words"),
    [
        ("gas: CO2, low: false", "mounted high"),
        ("gas: CO2, audible: false", "nobody hears"),
        ("gas: CO2, low: true, audible: true, tested: 2024-10-12", "was tested 773 d ago"),
    ],
)
def test_a_monitor_that_tells_nobody_in_time(monitor: str, words: str) -> None:
    """From 2024-10-12 to the sequence's 2026-11-24 there are 773 days (calendar)."""
    [finding] = findings(monitors(monitor), RULE)
    assert finding.grade == "caution"
    assert words in finding.message


def outdoors(text: str) -> str:
    return f"kind: room\nmonitors: [{{gas: CO2, low: true, audible: true, {text}}}]\n"


def test_silent_for_a_monitor_tested_this_year_or_one_that_tests_itself() -> None:
    assert findings(outdoors("tested: 2026-01-10"), RULE) == []
    assert findings(outdoors("tested: 2021-01-10, self_test: true"), RULE) == []


def test_a_monitor_whose_test_is_overdue_is_a_caution_with_the_cylinder_outside_too() -> None:
    """From 2021-01-10 to 2026-11-24 are 2144 days; a yearly test: common practice, no source."""
    (found,) = findings(outdoors("tested: 2021-01-10"), RULE)
    assert found.grade == "caution"
    assert "2144 d ago" in found.message


def test_the_lab_sets_how_often_a_monitor_is_tested() -> None:
    lab = "---\nkind: lab\npolicy: {monitor_tested_within: 182 d}\n"
    assert len(findings(outdoors("tested: 2026-01-10") + lab, RULE)) == 1
