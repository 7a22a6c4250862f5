"""One blank and two conditioning injections before the first standard: common practice."""

from __future__ import annotations

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import BLANK, calibrators, line, samples, sequence

RULE = "sequence.no-opening-blank"


def test_silent_with_a_blank_and_conditioning() -> None:
    text = sequence(BLANK, line("conditioning", count=2), calibrators(1))
    assert findings(text, RULE) == []


def test_suitability_counts_as_conditioning() -> None:
    assert findings(sequence(BLANK, BLANK, line("suitability", count=6), samples(1)), RULE) == []


def test_silent_when_the_block_goes_on() -> None:
    assert findings(sequence(samples(2), continues=True), RULE) == []


def test_neither() -> None:
    (found,) = findings(sequence(calibrators(1), BLANK), RULE)
    assert found.grade == "caution"
    assert "comes after no blank and none of 2 conditioning injections" in found.message
    assert found.remedy == "put a blank and 2 conditioning injections before this line"


def test_only_what_is_missing_is_asked_for() -> None:
    settled = line("conditioning", count=2), line("suitability", count=5)
    (found,) = findings(sequence(*settled, calibrators(1)), RULE)
    assert found.message == "the first calibrator comes after no blank"
    assert found.remedy == "put a blank before this line"
    (found,) = findings(sequence(BLANK, line("conditioning"), samples(1)), RULE)
    assert found.message == "the first sample comes after 1 of 2 conditioning injections"
    assert found.remedy == "put 1 more conditioning injection before this line"
    (found,) = findings(sequence(BLANK, samples(1)), RULE)
    assert found.remedy == "put 2 conditioning injections before this line"


def test_a_policy_of_several_blanks_counts_those_that_are_there() -> None:
    policy = "kind: lab\npolicy: {blanks_at_start: 3}\n---\n"
    (found,) = findings(policy + sequence(BLANK, line("suitability", count=5), samples(1)), RULE)
    assert found.message == "the first sample comes after 1 of 3 blanks"
    assert found.remedy == "put 2 more blanks before this line"


def test_the_policy_of_the_lab_wins() -> None:
    policy = "kind: lab\npolicy: {blanks_at_start: 0, conditioning_injections: 0}\n---\n"
    assert findings(policy + sequence(samples(1)), RULE) == []


def test_a_broken_count_is_not_taken_for_one() -> None:
    report = judged(sequence(BLANK, line("conditioning", count="two"), samples(1)), RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("sequence.lines[1].count",)


def test_silent_for_preparative_work() -> None:
    text = sequence(samples(3), purpose="preparative")
    assert findings(text, RULE) == []
