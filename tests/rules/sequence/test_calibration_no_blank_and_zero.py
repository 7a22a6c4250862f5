"""Blank and zero: ICH M10 (2022), 3.2.4, seen in a transcription."""

from __future__ import annotations

from tests.rules.harness import findings
from tests.rules.sequence.lines import calibrators, line, samples, sequence

RULE = "sequence.calibration-no-blank-and-zero"
BLANK = line("matrix blank", "blank")
ZERO = line("zero", "zero")


def test_silent_with_both() -> None:
    text = sequence(BLANK, ZERO, calibrators(1), samples(1), purpose="bioanalysis")
    assert findings(text, RULE) == []


def test_silent_without_the_tag_of_bioanalysis() -> None:
    assert findings(sequence(calibrators(1), samples(1), purpose="regulated"), RULE) == []


def test_silent_without_zero_where_there_is_no_internal_standard() -> None:
    text = sequence(BLANK, calibrators(1), purpose="bioanalysis", internal_standard=False)
    assert findings(text, RULE) == []


def test_silent_without_a_calibration() -> None:
    assert findings(sequence(samples(1), purpose="bioanalysis"), RULE) == []


def test_both_are_missing() -> None:
    (found,) = findings(sequence(calibrators(1), samples(1), purpose="bioanalysis"), RULE)
    assert found.grade == "fault"
    assert "a matrix blank and a zero sample" in found.message
    assert found.remedy.endswith("before line 1")


def test_a_blank_of_the_diluent_is_no_matrix_blank() -> None:
    text = sequence(line("blank"), ZERO, calibrators(1), purpose="bioanalysis")
    (found,) = findings(text, RULE)
    assert found.message == "the calibration lacks a matrix blank"
