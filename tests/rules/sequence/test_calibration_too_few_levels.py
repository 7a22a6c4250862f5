"""Six levels: ICH M10 (2022), 3.2.4 (unverified); three in routine work: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import calibrators, line, samples, sequence

RULE = "sequence.calibration-too-few-levels"


def test_silent_with_six_in_bioanalysis() -> None:
    text = sequence(calibrators(1, 2, 5, 10, 20, 50), samples(1), purpose="bioanalysis")
    assert findings(text, RULE) == []


@pytest.mark.parametrize("purpose", ["regulated", "research", None])
def test_silent_with_three_elsewhere(purpose: str | None) -> None:
    text = sequence(calibrators(1, 5, 20), samples(1), purpose=purpose)
    assert findings(text, RULE) == []


@pytest.mark.parametrize("way", ["single level", "standard addition"])
def test_silent_when_the_method_goes_another_way(way: str) -> None:
    method = f"kind: method\ncalibration: {way}\n---\n"
    text = sequence(calibrators(1), samples(1), purpose="regulated")
    assert findings(method + text, RULE) == []


def test_silent_for_a_lone_check_standard_outside_quantitative_work() -> None:
    assert findings(sequence(calibrators(1), samples(1), purpose="research"), RULE) == []


def test_five_are_too_few_in_bioanalysis() -> None:
    text = sequence(calibrators(1, 2, 5, 10, 20), samples(1), purpose="bioanalysis")
    (found,) = findings(text, RULE)
    assert found.grade == "fault"
    assert "5 levels above zero, 6 are recommended" in found.message


def test_replicates_of_a_level_count_once_and_zero_is_no_level() -> None:
    text = sequence(
        line("zero"), calibrators(1, 1, 2, 2, 5, 5, 10, 10), samples(1), purpose="bioanalysis"
    )
    (found,) = findings(text, RULE)
    assert found.found is not None
    assert found.found.value == 4


def test_two_are_too_few_for_anybody_and_no_reason_not_to_run() -> None:
    (found,) = findings(sequence(calibrators(1, 5), samples(1), purpose="regulated"), RULE)
    assert (found.grade, found.limit.value if found.limit else None) == ("caution", 3)
    policy = "kind: lab\npolicy: {calibration_levels: 5}\n---\n"
    text = sequence(calibrators(1, 2, 5), samples(1), purpose="regulated")
    (found,) = findings(policy + text, RULE)
    assert found.grade == "fault", "the lab's own number is binding"


def test_the_policy_of_the_lab_wins() -> None:
    policy = "kind: lab\npolicy: {calibration_levels: 3}\n---\n"
    text = sequence(calibrators(1, 2, 5), samples(1), purpose="regulated")
    assert findings(policy + text, RULE) == []


def test_a_broken_level_is_not_counted_as_anything() -> None:
    from tests.rules.harness import judged

    text = sequence(line("calibrator", "C1", level="ten"), samples(1), purpose="bioanalysis")
    report = judged(text, RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("sequence.lines[0].level",)


def test_a_method_that_goes_another_way_does_not_end_the_look() -> None:
    """Two methods in one sequence: the first goes by one standard, the second does not."""
    first = "kind: method\ncalibration: single level\n---\n"
    second = "kind: method\nx-name: other\n---\n"
    lines = [
        *calibrators(1),
        *[one.replace("{", '{"method": "other", ', 1) for one in calibrators(1, 2)],
    ]
    text = sequence(lines, samples(1), purpose="regulated")
    assert [f.grade for f in findings(first + second + text, RULE)] == ["caution"]


NAMED = [line("calibrator", f"C{n}") for n in range(1, 7)]


def test_silent_about_calibrators_without_levels_in_research() -> None:
    assert judged(sequence(NAMED, samples(1), purpose="research"), RULE).not_checked == []


def test_calibrators_without_levels_are_not_checked_in_regulated_work() -> None:
    report = judged(sequence(NAMED, samples(1), purpose="regulated"), RULE)
    assert [item.missing for item in report.not_checked] == [("sequence.lines[0].level",)]
