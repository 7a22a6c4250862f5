"""Five replicates up to a spread of 2 %, six above: from memory; two limits: common practice."""

from __future__ import annotations

from tests.rules.harness import findings
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.sst-too-few-or-without-criteria"


def _with(count: int, suitability: str = "") -> str:
    method = f"kind: method\nsuitability: {suitability}\n---\n" if suitability else ""
    return method + sequence(line("suitability", "SST", count=count), samples(2))


def test_silent_with_five_and_two_limits() -> None:
    assert findings(_with(5), RULE) == []


def test_silent_when_calibrators_serve() -> None:
    assert findings(_with(1, "{calibrators_serve: true}"), RULE) == []


def test_silent_without_suitability_lines_which_another_rule_reports() -> None:
    assert findings(sequence(samples(2)), RULE) == []


def test_lines_are_added_up() -> None:
    text = sequence(*[line("suitability", "SST") for _ in range(5)], samples(2))
    assert findings(text, RULE) == []


def test_two_are_too_few() -> None:
    (found,) = findings(_with(2), RULE)
    assert found.grade == "caution"
    assert "2 times before the samples, 5 are wanted" in found.message


def test_those_behind_the_samples_do_not_count() -> None:
    text = sequence(line("suitability", "SST", count=3), samples(2), line("suitability", count=3))
    (found,) = findings(text, RULE)
    assert "3 times" in found.message


def test_six_are_wanted_where_the_spread_may_exceed_two_percent() -> None:
    limits = "{replicates: null, rsd: 3 %, resolution: 1.5}"
    (found,) = findings(_with(5, limits), RULE)
    assert "6 are wanted" in found.message


def test_the_policy_of_the_lab_wins() -> None:
    policy = "kind: lab\npolicy: {suitability_replicates: 2}\n---\n"
    assert findings(policy + _with(2), RULE) == []


def test_one_limit_is_too_few() -> None:
    (found,) = findings(_with(5, "{tailing: null, rsd: null}"), RULE)
    assert found.at.document.kind == "method"
    assert "1 limit (resolution)" in found.message
