"""`safety.sample-hazard-vented`; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.sample-hazard-vented"
OPEN = "kind: room\noutlets: [{name: vent, of: separator, ducted: false}]\n"


def _hazard(kind: str) -> str:
    return f"---\nkind: method\nsample_hazard: {kind}\n"


def test_silent_for_harmless_samples() -> None:
    assert findings(OPEN + _hazard("none"), RULE) == []


def test_silent_where_the_vent_is_ducted() -> None:
    assert findings(OPEN.replace("false", "true") + _hazard("toxic"), RULE) == []


def test_silent_behind_a_trap() -> None:
    trap = OPEN.replace("ducted: false", "ducted: false, trap: activated carbon")
    assert findings(trap + _hazard("toxic"), RULE) == []


@pytest.mark.parametrize(("hazard", "grade"), [("toxic", "stop"), ("controlled", "fault")])
def test_fires_by_the_kind_of_hazard(hazard: str, grade: str) -> None:
    [finding] = findings(OPEN + _hazard(hazard), RULE)
    assert finding.grade == grade
    assert f"the samples are {hazard}" in finding.message
    assert finding.cautions == ("toxic",)
    assert "extraction" in finding.remedy and "trap" in finding.remedy
    assert "no single change" not in finding.remedy


def test_samples_nobody_speaks_of_are_not_checked_at_an_open_vent() -> None:
    report = judged(OPEN, RULE)
    assert [item.missing for item in report.not_checked] == [("method.sample_hazard",)]


def test_samples_nobody_speaks_of_need_no_word_behind_a_duct() -> None:
    report = judged("", RULE)
    assert report.not_checked == []


def test_no_outlets_are_asked_for_with_harmless_samples() -> None:
    assert judged("kind: room\noutlets: []" + "\n" + _hazard("none"), RULE).not_checked == []


def test_one_outlet_ends_and_two_end() -> None:
    (alone,) = judged(OPEN, RULE).not_checked
    assert " ends in the room" in alone.reason


PUMP = "kind: room\noutlets: [{name: pump, of: rough pump, ducted: false}]\n"


def test_a_rough_pump_draws_from_the_source_too() -> None:
    [finding] = findings(PUMP + _hazard("toxic"), RULE)
    assert finding.grade == "stop"
    assert findings(PUMP + _hazard("none"), RULE) == []


def test_a_rough_pump_alone_asks_for_nothing() -> None:
    assert judged(PUMP, RULE).not_checked == []
