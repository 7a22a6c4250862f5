"""`safety.room-co2-release`: everything connected, in the room's air."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.room-co2-release"
UNFILED = "---\nkind: room\nvolume: 60 m3\nrisk_assessment: {on_file: false}\n"
INSIDE = f"kind: supply\nplace: inside\n{UNFILED}"


def _outside(stop: str, where: str = "upstream of the wall") -> str:
    return f"kind: supply\nplace: outside\nflow_stop: {stop}\nflow_stop_place: {where}\n{UNFILED}"


@pytest.mark.parametrize("stop", ["excess-flow valve", "monitor-operated shut-off"])
def test_silent_outdoors_behind_a_stop_ahead_of_the_wall(stop: str) -> None:
    assert findings(_outside(stop), RULE) == []


def test_silent_in_an_exhausted_cabinet_with_a_stop() -> None:
    text = INSIDE.replace("place: inside", "place: exhausted cabinet\nflow_stop: excess-flow valve")
    assert findings(text, RULE) == []


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(_outside("none"), id="outdoors without a stop"),
        pytest.param(_outside("excess-flow valve", "inside"), id="stop downstream of the wall"),
        pytest.param(_outside("null", "null"), id="stop not declared"),
        pytest.param(
            INSIDE.replace("inside", "exhausted cabinet\nflow_stop: none"), id="cabinet, no stop"
        ),
    ],
)
def test_outdoors_without_a_stop_counts_whole(text: str) -> None:
    [finding] = findings(text, RULE)
    assert finding.grade == "stop"
    assert "37.5 kg" in finding.message
    assert "no stop ahead of the wall" in finding.message


def test_stop_with_both_gases() -> None:
    """37.5 kg in 60 m3: 28.8 % CO2, 14.9 % oxygen (worked); 4 % is the NIOSH 1994 limit."""
    [finding] = findings(INSIDE, RULE)
    assert finding.grade == "stop"
    assert "28.8 % CO2" in finding.message
    assert "14.9 % oxygen" in finding.message
    assert finding.at.path == ("place",)


def test_caution_between_half_a_per_cent_and_four() -> None:
    """4.0 kg in 60 m3: 3.6 %; worked by hand."""
    small = "net_mass: 3 kg\nfull_mass: 4 kg\n"
    [finding] = findings(INSIDE.replace("---", f"{small}---", 1), RULE)
    assert finding.grade == "caution"
    assert "3.6 % CO2" in finding.message


def test_silent_below_half_a_per_cent() -> None:
    """0.5 kg in 60 m3: 0.45 %; worked by hand."""
    tiny = "net_mass: 0.5 kg\nfull_mass: 0.5 kg\n"
    assert findings(INSIDE.replace("---", f"{tiny}---", 1), RULE) == []


def test_note_with_a_filed_assessment_and_a_co2_alarm() -> None:
    [finding] = findings(INSIDE.replace("on_file: false", "on_file: true"), RULE)
    assert finding.grade == "note"
    assert "assessed on file" in finding.message


@pytest.mark.parametrize("monitors", ["monitors: []", "monitors: [{gas: O2}]", "monitors: null"])
def test_an_assessment_without_a_co2_alarm_does_not_lower_it(monitors: str) -> None:
    text = INSIDE.replace("on_file: false", "on_file: true") + monitors
    [finding] = findings(text, RULE)
    assert finding.grade == "stop"


def test_half_the_volume_below_ground() -> None:
    """37.5 kg in 30 m3: 1 - exp(-37.5/(1.839 x 30)) = 49.3 %; half the volume: common practice."""
    [finding] = findings(f"{INSIDE}below_ground: true", RULE)
    assert "49.3 % CO2" in finding.message
    assert "pools below ground" in finding.message


def test_bank_counts_whole() -> None:
    bank = "cylinders: 4\nnet_mass: 120 kg\nfull_mass: 150 kg\n"
    [finding] = findings(INSIDE.replace("---", f"{bank}---", 1), RULE)
    assert "all 150 kg connected" in finding.message


def test_remedy_gives_what_the_room_takes() -> None:
    """0.075 kg for every cubic metre up to 4 %: 4.5 kg in 60 m3 (worked)."""
    [finding] = findings(INSIDE, RULE)
    assert "no single change" not in finding.remedy
    assert "4.5 kg up to 4 %" in finding.remedy
    assert "excess-flow valve" in finding.remedy


def test_place_is_not_assumed() -> None:
    report = judged(f"kind: supply\nplace: null\n{UNFILED}", RULE)
    assert [item.missing for item in report.not_checked] == [("supply.place",)]


def test_mass_is_not_assumed() -> None:
    text = INSIDE.replace("---", "net_mass: null\nfull_mass: null\n---", 1)
    assert [item.missing for item in judged(text, RULE).not_checked] == [("supply.full_mass",)]


@pytest.mark.parametrize(("day", "grade"), [("2026-03-02", "note"), ("2027-03-02", "stop")])
def test_an_assessment_counts_from_the_day_on_which_it_is_filed(day: str, grade: str) -> None:
    """The sequence of the sound lab runs on 2026-11-24; its room has a CO2 alarm."""
    filed = INSIDE.replace("on_file: false", f"on_file: true, date: {day}")
    assert [finding.grade for finding in findings(filed, RULE)] == [grade]


def test_thin_air_is_less_air_to_mix_with() -> None:
    """1.5 kg in 28 m3 at half an atmosphere: 1 - exp(-1.5/(1.839 x 14)) = 5.7 %, else 2.9 %
    (arithmetic; gas density: Span and Wagner 1996)."""
    small = INSIDE.replace("60 m3", "28 m3").replace(
        "place: inside", "place: inside\nnet_mass: 1.5 kg\nfull_mass: 1.5 kg"
    )
    [low] = findings(small + "air_pressure: 0.506625 bar\n", RULE)
    [sea] = findings(small, RULE)
    assert "5.7 % CO2" in low.message and low.grade == "stop"
    assert "2.9 % CO2" in sea.message and sea.grade == "caution"
