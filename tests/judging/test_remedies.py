"""A remedy is printed only after it was applied and judged again."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest

from methodlint import check
from methodlint.checking.changed import changed_documents, put
from methodlint.judging.engine import judge_case
from methodlint.judging.finding import Finding
from methodlint.judging.judged import Judged
from tests.judging.test_engine import judged, rule, says
from tests.rules.harness import judged as judged_lab
from tests.text_labs import EXAMPLES


def too_slow(case: Any) -> Iterator[Finding]:
    flow = case.get("method.flow").si * 6e7
    if flow < 2.0:
        yield case.finding(
            "method.flow",
            "fault",
            "the flow is below 2 mL/min",
            candidates=[
                case.candidate(f"set the flow to {value}", case.change("method.flow", value))
                for value in ("1.8 mL/min", "2.5 mL/min", "3.0 mL/min")
            ],
        )


def too_fast(case: Any) -> Iterator[Finding]:
    if case.get("method.flow").si * 6e7 > 2.7:
        yield case.finding("method.flow", "fault", "the flow is above 2.7 mL/min")


def careful(case: Any) -> Iterator[Finding]:
    if case.get("method.flow").si * 6e7 > 2.2:
        yield case.finding("method.flow", "caution", "the flow is above 2.2 mL/min")


def test_the_first_candidate_that_clears_is_the_remedy() -> None:
    (finding,) = judged("", rule("made.slow", too_slow)).findings
    assert finding.remedy == "set the flow to 2.5 mL/min"


def test_a_candidate_that_raises_a_finding_of_equal_class_is_passed_over() -> None:
    above = rule("made.fast", lambda case: too_fast_from(case, 2.4))
    (finding,) = judged("", rule("made.slow", too_slow), above).findings
    assert finding.remedy == (
        "no single change tried resolves it; the closest is to set the flow to 2.5 mL/min, "
        "which then raises made.fast"
    )


def too_fast_from(case: Any, limit: float) -> Iterator[Finding]:
    if case.get("method.flow").si * 6e7 > limit:
        yield case.finding("method.flow", "fault", "too fast")


def test_a_candidate_without_any_new_caution_is_preferred() -> None:
    def slow_with_more(case: Any) -> Iterator[Finding]:
        for finding in too_slow(case):
            more = case.candidate("set it to 2.1 mL/min", case.change("method.flow", "2.1 mL/min"))
            yield case.finding(
                "method.flow", "fault", finding.message, candidates=[*finding.candidates, more]
            )

    found = judged("", rule("made.slow", slow_with_more), rule("made.careful", careful)).findings
    assert next(f for f in found if f.rule == "made.slow").remedy == "set it to 2.1 mL/min"


def test_a_caution_is_accepted_when_nothing_better_clears_a_fault() -> None:
    found = judged("", rule("made.slow", too_slow), rule("made.careful", careful)).findings
    slow = next(f for f in found if f.rule == "made.slow")
    assert slow.remedy == "set the flow to 2.5 mL/min; that leaves made.careful (caution)"


def test_a_change_that_does_not_validate_is_no_candidate() -> None:
    def wrong(case: Any) -> Iterator[Finding]:
        change = case.change("method.flow", "2.5 bar")
        yield case.finding(
            "method.flow", "fault", "wrong", candidates=[case.candidate("nonsense", change)]
        )

    (finding,) = judged("", rule("made.wrong", wrong)).findings
    assert "nonsense" not in finding.remedy


def test_the_document_that_was_checked_is_never_changed() -> None:
    report = judged("", rule("made.slow", too_slow))
    method = next(d for d in report.documents.values() if d.kind == "method")
    assert method.data["flow"] == "1.5 mL/min"


def test_several_changes_make_one_candidate() -> None:
    def both(case: Any) -> Iterator[Finding]:
        candidate = case.candidate(
            "both",
            case.change("method.flow", "2.5 mL/min"),
            case.change("method.outlet_pressure", "140 bar"),
        )
        changed = changed_documents(candidate)
        assert changed is not None
        (document,) = changed.values()
        assert document.data["flow"] == "2.5 mL/min"
        assert document.data["outlet_pressure"] == "140 bar"
        yield case.finding("method.flow", "note", "seen")

    assert judged("", rule("made.both", both)).findings


def test_put_makes_what_is_missing_inserts_and_removes() -> None:
    data: dict[str, Any] = {"lines": [{"kind": "sample"}]}
    put(data, ("pressure_limits", "low"), "100 bar")
    put(data, ("lines", 0), {"kind": "blank"}, insert=True)
    put(data, ("lines", 1, "kind"), "control")
    assert data == {
        "pressure_limits": {"low": "100 bar"},
        "lines": [{"kind": "blank"}, {"kind": "control"}],
    }
    put(data, ("pressure_limits",), None)
    assert "pressure_limits" not in data


def test_a_rule_without_candidates_keeps_its_words() -> None:
    (finding,) = judged("", rule("made.plain", says("fault"))).findings
    assert finding.remedy == ""


def test_a_high_limit_is_never_moved_above_what_a_plug_may_do_to_a_part() -> None:
    """Every part and trip of the base lab above 350 bar stands behind a cell rated 350 bar."""
    hot = (
        "kind: method\noven_temperature: 60 degC\noutlet_pressure: 95 bar\nflow: 2.4 mL/min\n"
        "pressure_limits: {high: 320 bar, low: 96 bar}\n"
    )
    said = [item.remedy for item in judged_lab(hot).findings]
    limits = [
        float(text) for remedy in said for text in re.findall(r"high limit to (\d+) bar", remedy)
    ]
    assert limits
    assert max(limits) <= 350.0


def test_a_trial_ends_where_it_is_ruled_out_and_that_rule_is_asked_first() -> None:
    asked: list[tuple[str, float]] = []

    def noted(name: str, judge: Any) -> Any:
        def say(case: Any) -> Iterator[Finding]:
            asked.append((name, round(case.get("method.flow").si * 6e7, 3)))
            yield from judge(case)

        return rule(name, say)

    rules = (
        noted("made.a", lambda case: iter(())),
        noted("made.fast", lambda case: too_fast_from(case, 2.4)),
        noted("made.slow", too_slow),
        noted("made.z", lambda case: iter(())),
    )
    judged("", *rules)
    trials = [(name, flow) for name, flow in asked if flow in (1.8, 2.5, 3.0)]
    assert trials == [
        ("made.slow", 1.8),  # the finding's own rule, which still speaks
        ("made.slow", 2.5), ("made.a", 2.5), ("made.fast", 2.5),
        ("made.slow", 3.0), ("made.fast", 3.0),  # resolved, and what it raises is known
    ]  # fmt: skip


@pytest.mark.long
def test_trials_that_are_judged_to_their_end_give_the_same_remedies(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    place, ended_by = "methodlint.checking.remedies.judge_case", set()

    def said() -> list[tuple[str, str, str]]:
        report = check(EXAMPLES / "flawed")
        return [(f.rule, f.at.document.path, f.remedy) for f in report.findings]

    def watched(*arguments: Any) -> Judged:
        outcome = judge_case(*arguments)
        ended_by.add(outcome.ended_by)
        return outcome

    monkeypatch.setattr(place, watched)
    ended_early = said()
    assert len(ended_by - {""}) > 3
    monkeypatch.setattr(place, lambda case, rules, *early: judge_case(case, rules))
    assert said() == ended_early
