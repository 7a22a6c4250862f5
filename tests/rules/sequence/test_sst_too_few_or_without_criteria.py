"""Five replicates up to a spread of 2 %, six above: from memory; two limits: common practice."""

from __future__ import annotations

import pytest

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
    assert "2 times before the samples, 5 are recommended" in found.message


def test_those_behind_the_samples_do_not_count() -> None:
    text = sequence(line("suitability", "SST", count=3), samples(2), line("suitability", count=3))
    (found,) = findings(text, RULE)
    assert "3 times" in found.message


def test_six_are_wanted_where_the_spread_may_exceed_two_percent() -> None:
    limits = "{replicates: null, rsd: 3 %, resolution: 1.5}"
    (found,) = findings(_with(5, limits), RULE)
    assert "6 are recommended" in found.message


def test_the_policy_of_the_lab_wins() -> None:
    policy = "kind: lab\npolicy: {suitability_replicates: 2}\n---\n"
    assert findings(policy + _with(2), RULE) == []


def test_one_limit_is_too_few() -> None:
    (found,) = findings(_with(5, "{tailing: null, rsd: null}"), RULE)
    assert found.at.document.kind == "method"
    assert "1 limit (resolution)" in found.message


def assay(suitability: str, purpose: str = "regulated", count: int = 6) -> str:
    method = f"kind: method\npurpose: {purpose}\nsuitability: {{resolution: 1.5, tailing: 1.8, {suitability}}}\n"
    sst = line("suitability", "SST", well="A3", count=count)
    return method + "---\n" + sequence(sst, samples(1), purpose=purpose)


def test_silent_for_a_spread_that_suits_the_limit_of_content() -> None:
    """0.85 % for 102 % and six injections: USP <621> (unverified)."""
    assert findings(assay("replicates: 6, rsd: 0.84 %, content_margin: 2 %"), RULE) == []


def test_silent_in_research_and_without_a_limit_of_content() -> None:
    wide = "replicates: 6, rsd: 2 %, content_margin: 2 %"
    assert findings(assay(wide, "research"), RULE) == []
    assert findings(assay("replicates: 6, rsd: 2 %"), RULE) == []


@pytest.mark.parametrize(
    ("count", "content", "limit"),
    [(5, "2 %", 0.73), (6, "2 %", 0.85), (5, "2.5 %", 0.92), (6, "3 %", 1.27)],
)
def test_a_spread_too_wide_for_the_content(count: int, content: str, limit: float) -> None:
    """RSDmax of the table by content and injections: USP <621> (unverified)."""
    text = assay(f"replicates: {count}, rsd: 1.5 %, content_margin: {content}", count=count)
    (found,) = findings(text, RULE)
    assert found.grade == "caution"
    assert found.limit is not None and found.limit.value == pytest.approx(limit, abs=0.01)


def test_silent_for_ten_times_the_noise_at_the_reporting_threshold() -> None:
    assert findings(assay("reporting_threshold: 0.05 %, signal_to_noise: 10"), RULE) == []


@pytest.mark.parametrize("more", ["", ", signal_to_noise: 3"])
def test_impurities_without_a_limit_of_signal_to_noise(more: str) -> None:
    (found,) = findings(assay(f"reporting_threshold: 0.05 %{more}"), RULE)
    assert "signal to noise" in found.message
    assert "10 is asked for" in found.message
