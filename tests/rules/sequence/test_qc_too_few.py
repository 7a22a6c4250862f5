"""max(6, 5 % of the samples), three levels in duplicate: ICH M10 (2022), 3.3.1, transcription."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings
from tests.rules.sequence.lines import calibrators, controls, samples, sequence

RULE = "sequence.qc-too-few"
THREE = ("lower", "middle", "upper")


def test_silent_with_six_for_96() -> None:
    text = sequence(controls(*THREE, *THREE), samples(96), purpose="bioanalysis")
    assert findings(text, RULE) == []


def test_silent_without_controls_outside_bioanalysis() -> None:
    assert findings(sequence(samples(30), purpose="research"), RULE) == []


def test_silent_without_samples() -> None:
    assert findings(sequence(controls("lower"), purpose="bioanalysis"), RULE) == []


def test_silent_with_one_in_ten_at_two_levels() -> None:
    text = sequence(controls("lower", "upper"), samples(20), purpose="regulated")
    assert findings(text, RULE) == []


def test_three_for_96_prints_the_arithmetic() -> None:
    text = sequence(controls(*THREE), samples(96), purpose="bioanalysis")
    (found,) = findings(text, RULE)
    assert found.grade == "fault"
    assert "3 controls for 96 samples, 6 are needed" in found.message
    assert "5 % of 96 = 4.8 -> 5, at least 6" in found.message


@pytest.mark.parametrize(("count", "needed"), [(120, 6), (121, 7), (140, 7), (141, 8)])
def test_percents_are_rounded_up_and_whole_ones_are_not(count: int, needed: int) -> None:
    text = sequence(controls(*THREE), samples(count), purpose="bioanalysis")
    (found,) = findings(text, RULE)
    assert found.limit is not None
    assert found.limit.value == needed


def test_a_level_without_its_duplicate() -> None:
    six = ("lower", "lower", "lower", "middle", "middle", "upper")
    (found,) = findings(sequence(controls(*six), samples(9), purpose="bioanalysis"), RULE)
    assert "missing: 1 x upper" in found.message


def test_one_level_outside_bioanalysis() -> None:
    text = sequence(controls("lower", "lower"), samples(20), purpose="research")
    (found,) = findings(text, RULE)
    assert found.grade == "caution"
    assert "a second level" in found.message


def test_the_policy_of_the_lab_asks_for_controls() -> None:
    policy = "kind: lab\npolicy: {samples_per_control: 5}\n---\n"
    (found,) = findings(policy + sequence(samples(11), purpose="regulated"), RULE)
    assert "0 controls for 11 samples, 3 are needed" in found.message


def test_regulated_samples_without_any_control() -> None:
    (found,) = findings(sequence(samples(2), purpose="regulated"), RULE)
    assert found.grade == "fault"
    assert "0 controls for 2 samples" in found.message


def test_silent_for_an_assay_by_one_standard_that_brackets() -> None:
    """Brackets control an assay by one standard (common practice, no source)."""
    text = sequence(calibrators(100), samples(12), calibrators(100), purpose="regulated")
    assert findings(f"kind: method\ncalibration: single level\n---\n{text}", RULE) == []
    assert len(findings(text, RULE)) == 1


def test_one_control_is_told_in_the_singular() -> None:
    (found,) = findings(sequence(samples(10), purpose="regulated"), RULE)
    assert "0 controls for 10 samples, 1 is needed" in found.message
    assert found.remedy == "add 1 control, spread over the samples"


@pytest.mark.parametrize("way", ["single level", "none"])
def test_silent_for_a_method_without_a_curve(way: str) -> None:
    """It is controlled by its brackets or its suitability series."""
    method = f"kind: method\ncalibration: {way}\n---\n"
    text = sequence(controls("lower", "lower"), samples(20), purpose="regulated")
    assert findings(method + text, RULE) == []


def test_the_remedy_names_the_level() -> None:
    six = ("lower", "lower", "lower", "middle", "middle", "upper")
    (found,) = findings(sequence(controls(*six), samples(9), purpose="bioanalysis"), RULE)
    assert "1 x upper" in found.remedy
