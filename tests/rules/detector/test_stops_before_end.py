"""detector.stops-before-end: 5 sigma: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.stops-before-end"

# tR 5 min, width 12 s: 5 sigma = 15 s; needed 5.25 min (arithmetic).


def method(ends: str = "", run: str = "8 min", more: str = "", peak: str = "width: 12 s") -> str:
    ends = f", ends: {ends}" if ends else ""
    return (
        f"kind: method\nrun_length: {run}\n"
        f"expected_peaks: [{{name: last, retention_time: 5 min, {peak}}}]\n"
        f"detectors: [{{type: UV, cell: UV cell, rate: 20 Hz{ends}{more}}}]\n"
    )


@pytest.mark.parametrize("ends", ["5.25 min", "8 min", ""])
def test_silent_if_the_last_peak_is_down(ends: str) -> None:
    assert findings(method(ends), RULE) == []


def test_silent_for_a_declared_heart_cut() -> None:
    assert findings(method("3 min", more=", heart_cut: true"), RULE) == []


def test_silent_for_a_trace_that_only_triggers() -> None:
    assert findings(method("3 min", more=", purpose: trigger"), RULE) == []


def test_a_trace_that_ends_within_the_peak() -> None:
    (found,) = findings(method("5.1 min"), RULE)
    assert found.grade == "fault"
    assert found.at.path == ("detectors", 0, "ends")
    assert found.limit is not None and found.limit.value == pytest.approx(5.25)
    assert "9 s missing" in found.message
    assert found.remedy == "record until 5.3 min"


def test_a_run_that_ends_within_the_peak() -> None:
    (found,) = findings(method(run="5.1 min"), RULE)
    assert found.at.path == ("run_length",)
    assert found.remedy == "record until 5.3 min"


def test_two_traces_that_end_with_the_run_are_one_finding() -> None:
    changes = (
        "kind: method\nrun_length: 5.1 min\n"
        "expected_peaks: [{name: last, retention_time: 5 min, width: 12 s}]\n"
        "detectors: [{type: UV, cell: UV cell, rate: 20 Hz}, {type: ELSD, rate: 20 Hz}]\n"
    )
    assert len(findings(changes, RULE)) == 1


def test_a_guessed_width_softens_what_lies_in_its_band() -> None:
    """4 x 300 / sqrt(10000) = 12 s, 5 sigma known to a quarter: 3.75 s (arithmetic)."""
    column = "---\nkind: column\nplates: 10000\n"
    (soft,) = findings(method("5.2 min", peak="plates: null") + column, RULE)
    assert soft.grade == "caution" and soft.possible
    (hard,) = findings(method("5.1 min", peak="plates: null") + column, RULE)
    assert hard.grade == "fault"


def test_without_a_last_peak_it_is_not_checked() -> None:
    report = judged("kind: method\nexpected_peaks: []", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.expected_peaks",)]
