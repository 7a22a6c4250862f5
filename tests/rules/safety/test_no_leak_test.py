"""A leak test after the flow path was opened: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "safety.no-leak-test"


def lab(test: str, opened: str = "2026-11-23") -> str:
    return f"kind: instrument\nopened: {opened}\nleak_test: {test}\n"


def test_silent_where_it_was_tested_on_that_day_or_later() -> None:
    assert findings(lab("{on: 2026-11-23, passed: true}"), RULE) == []
    assert findings(lab("{on: 2026-11-24}"), RULE) == []


def test_silent_where_nothing_is_said_of_an_opening() -> None:
    assert findings(lab("null", "null"), RULE) == []


def test_no_test_since_the_last_opening_is_a_caution() -> None:
    (found,) = findings(lab("{on: 2026-11-02, passed: true}"), RULE)
    assert found.grade == "caution"
    assert "opened on 2026-11-23, and the last leak test was on 2026-11-02" in found.message
    (none,) = findings(lab("null"), RULE)
    assert "no test is noted" in none.message


def test_a_failed_test_is_a_stop() -> None:
    (found,) = findings(lab("{on: 2026-11-24, passed: false}"), RULE)
    assert found.grade == "stop"
    assert found.cautions == ("pressure", "flammable")
