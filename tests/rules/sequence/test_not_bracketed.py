"""At most 20 samples or 12 hours between standards: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import controls, line, samples, sequence

RULE = "sequence.not-bracketed"
QC = controls("lower")


def test_silent_with_twenty_between_two_controls() -> None:
    assert findings(sequence(QC, samples(20), QC, purpose="regulated"), RULE) == []


@pytest.mark.parametrize("word", ["internal standard", "none"])
def test_silent_when_the_method_states_no_bracketing(word: str) -> None:
    method = f"kind: method\nbracketing: {word}\n---\n"
    assert findings(method + sequence(samples(30), purpose="bioanalysis"), RULE) == []


@pytest.mark.parametrize("purpose", ["research", "screening", None])
def test_silent_without_a_quantitative_purpose(purpose: str | None) -> None:
    text = "kind: method\npurpose: null\n---\n" + sequence(samples(30), purpose=purpose)
    assert findings(text, RULE) == []


def test_twenty_one_in_a_row_are_a_fault() -> None:
    (found,) = findings(sequence(QC, samples(21), QC, purpose="regulated"), RULE)
    assert found.grade == "fault"
    assert "21 samples in a row (lines 2 to 22), 20 are allowed" in found.message


def test_the_count_of_a_line_counts() -> None:
    text = sequence(QC, line("sample", "s", count=21), QC, purpose="regulated")
    (found,) = findings(text, RULE)
    assert "21 samples in a row (line 2)" in found.message


def test_samples_after_the_last_standard() -> None:
    (found,) = findings(sequence(QC, samples(2), purpose="bioanalysis"), RULE)
    assert "2 samples after the last standard (lines 2 to 3)" in found.message


def test_samples_before_the_first_standard() -> None:
    (found,) = findings(sequence(samples(2), QC, purpose="bioanalysis"), RULE)
    assert "2 samples before the first standard" in found.message


def test_the_clock_counts_too() -> None:
    # 20 runs of 8 + 3 min and 0.7 min between them: 234 min, 3.9 h.
    policy = "kind: lab\npolicy: {time_between_brackets: 3 h}\n---\n"
    (found,) = findings(policy + sequence(QC, samples(20), QC, purpose="regulated"), RULE)
    assert "3.9 h between two standards" in found.message


def test_policy_of_the_lab_makes_it_a_caution_elsewhere() -> None:
    policy = "kind: lab\npolicy: {bracketing_required: true, samples_between_brackets: 5}\n---\n"
    (found,) = findings(policy + sequence(QC, samples(6), QC, purpose="research"), RULE)
    assert found.grade == "caution"


def test_the_controls_that_were_put_in_clear_it() -> None:
    (found,) = judged(sequence(QC, samples(45), purpose="regulated"), RULE).findings
    assert found.remedy == "put QC lower after line 21, 41, 46"
