"""Carry-over: ICH M10 (2022), 3.2.6, seen in a transcription: a blank after the highest standard."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import BLANK, calibrators, line, samples, sequence

RULE = "sequence.no-carryover-blank"


def test_silent_with_a_blank_directly_behind_the_highest() -> None:
    text = sequence(calibrators(1, 2, 50), BLANK, samples(3), purpose="bioanalysis")
    assert findings(text, RULE) == []


def test_silent_when_the_highest_level_is_injected_twice_and_then_a_blank() -> None:
    text = sequence(calibrators(1, 50, 50), BLANK, samples(3), purpose="bioanalysis")
    assert findings(text, RULE) == []


@pytest.mark.parametrize("purpose", ["screening", "research", "preparative", None])
def test_silent_without_a_quantitative_purpose(purpose: str | None) -> None:
    text = sequence(calibrators(1, 50), samples(3), purpose=purpose)
    assert findings(f"kind: method\npurpose: null\n---\n{text}", RULE) == []


def test_silent_when_nothing_follows_the_closing_standards() -> None:
    text = sequence(samples(3), calibrators(1, 50), line("flush"), purpose="bioanalysis")
    assert findings(text, RULE) == []


def test_a_matrix_blank_is_a_blank() -> None:
    text = sequence(calibrators(1, 50), line("matrix blank"), samples(1), purpose="bioanalysis")
    assert findings(text, RULE) == []


@pytest.mark.parametrize("purpose", ["bioanalysis", "regulated"])
def test_a_sample_behind_the_highest_is_a_fault(purpose: str) -> None:
    text = sequence(BLANK, calibrators(1, 2, 50), samples(3), purpose=purpose)
    (found,) = findings(text, RULE)
    assert found.grade == "fault"
    assert found.at.path == ("lines", 3)
    assert "C3, line 4" in found.message
    assert "line 5 is a sample" in found.message


def test_a_blank_one_line_later_does_not_count() -> None:
    text = sequence(calibrators(1, 50), line("zero"), BLANK, samples(1), purpose="bioanalysis")
    (found,) = findings(text, RULE)
    assert "line 3 is a zero" in found.message


def test_the_highest_is_the_highest_concentration_whatever_the_order() -> None:
    lines = [line("calibrator", f"C{c}", concentration=f"{c} mg/mL") for c in (10, 1)]
    text = sequence(lines, BLANK, samples(1), purpose="bioanalysis")
    (found,) = findings(text, RULE)
    assert found.at.path == ("lines", 0)


def test_policy_of_the_lab_makes_it_a_caution_elsewhere() -> None:
    policy = "kind: lab\npolicy: {blank_after_highest: true}\n---\n"
    (found,) = findings(policy + sequence(calibrators(1, 50), samples(1)), RULE)
    assert found.grade == "caution"


def test_the_blank_that_was_put_in_clears_it_in_both_places() -> None:
    text = sequence(
        BLANK, calibrators(1, 50), samples(2), calibrators(50), samples(2, 3), purpose="bioanalysis"
    )
    (found,) = judged(text, RULE).findings
    assert found.remedy.startswith("put a blank after lines 3 and 6")


def test_silent_behind_the_one_standard_of_an_assay() -> None:
    """Samples of a single-level assay are about as strong (common practice, no source)."""
    text = sequence(BLANK, calibrators(100, 100), samples(3), purpose="regulated")
    assert findings(f"kind: method\ncalibration: single level\n---\n{text}", RULE) == []
