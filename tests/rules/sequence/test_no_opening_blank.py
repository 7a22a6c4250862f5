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
    assert "after 0 of 1 blanks and 0 of 2 conditioning injections" in found.message


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
