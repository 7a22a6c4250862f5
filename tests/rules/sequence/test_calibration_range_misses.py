"""Range of the calibration: common practice, no source. Factors by division."""

from __future__ import annotations

from tests.rules.harness import findings
from tests.rules.sequence.lines import line, sequence

RULE = "sequence.calibration-range-misses"
LOW = line("calibrator", "C1", concentration="1 mg/mL")
HIGH = line("calibrator", "C2", concentration="10 mg/mL")


def test_silent_within_the_range_ends_included() -> None:
    text = sequence(LOW, HIGH, line("control", "QC", expected="10 mg/mL"), line("sample", "s"))
    assert findings(text, RULE) == []


def test_silent_when_the_dilution_brings_it_in() -> None:
    text = sequence(LOW, HIGH, line("sample", "s", expected="40 mg/mL", dilution=4))
    assert findings(text, RULE) == []


def test_silent_for_a_screening() -> None:
    text = sequence(LOW, HIGH, line("sample", "s", expected="40 mg/mL"), purpose="screening")
    assert findings(text, RULE) == []


def test_silent_where_the_two_are_told_in_different_terms() -> None:
    text = sequence(LOW, HIGH, line("sample", "s", expected="40 mM"))
    assert findings(text, RULE) == []


def test_a_sample_above_gives_the_factor() -> None:
    text = sequence(LOW, HIGH, line("sample", "s", expected="41 mg/mL"))
    (found,) = findings(text, RULE)
    assert found.grade == "caution"
    assert "expected at 41 mg/mL, above the highest calibrator of 10 mg/mL" in found.message
    assert "dilution: 5" in found.remedy  # 41 / 10 = 4.1, rounded up


def test_a_control_below() -> None:
    text = sequence(LOW, HIGH, line("control", "QC", concentration="0.5 mg/mL"))
    (found,) = findings(text, RULE)
    assert "below the lowest calibrator of 1 mg/mL" in found.message


def test_the_lowest_level_to_report() -> None:
    method = "kind: method\nlowest_level: 0.2 mg/mL\n---\n"
    (found,) = findings(method + sequence(LOW, HIGH, line("sample", "s")), RULE)
    assert "reports from 0.2 mg/mL on, the lowest calibrator is 1 mg/mL" in found.message
