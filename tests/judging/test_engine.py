"""Folding, policy, deviations, failing rules: what the engine does with what rules say."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from methodlint.checking.check import judge_documents
from methodlint.checking.report import Report
from methodlint.judging.engine import fold
from methodlint.judging.finding import Finding, When
from methodlint.judging.loader import Rule
from methodlint.rulebook.examples import _library, lab_with


def rule(
    name: str,
    say: Any,
    grades: tuple[str, ...] = ("stop", "fault", "caution", "note"),
    causes: tuple[str, ...] = (),
    needs: tuple[str, ...] = (),
    subject: str = "run",
) -> Rule:
    return Rule(
        id=name,
        page="A made-up rule.",
        subject=subject,  # type: ignore[arg-type]
        grades=grades,  # type: ignore[arg-type]
        needs=needs,
        causes=causes,
        judge=say,
        applies=lambda case: True,
        file=Path("made_up.py"),
    )


def says(grade: str, where: str = "method.flow", when: When | None = None) -> Any:
    def judge(case: Any) -> Iterator[Finding]:
        yield case.finding(where, grade, f"{grade} at {where}", when=when)

    return judge


def judged(changes: str, *rules: Rule, as_of: datetime.date | None = None) -> Report:
    documents = lab_with(changes)
    return judge_documents(
        _library(documents), [documents["sequence"], documents["method"]], rules, as_of
    )


def test_every_rule_that_was_asked_counts_once() -> None:
    silent = rule("made.silent", lambda case: iter(()))
    unasked = rule("made.unasked", says("note"), needs=("column.storage_liquid",))
    assert judged("", silent).checked == 1
    assert judged("", silent, rule("made.loud", says("note"))).checked == 2
    report = judged("kind: column\nstorage_liquid: null\n", silent, unasked)
    assert (report.checked, len(report.not_checked)) == (1, 1)


def test_a_consequence_folds_beneath_its_cause_which_takes_the_worse_class() -> None:
    report = judged(
        "",
        rule("made.cause", says("caution"), causes=("made.effect",)),
        rule("made.effect", says("fault")),
    )
    (finding,) = report.findings
    assert finding.rule == "made.cause"
    assert finding.grade == "fault"
    assert [child.rule for child in finding.because] == ["made.effect"]


def test_findings_at_other_times_do_not_fold() -> None:
    report = judged(
        "",
        rule("made.cause", says("caution", when=When(0.0, 60.0)), causes=("made.effect",)),
        rule("made.effect", says("caution", when=When(120.0, 180.0))),
    )
    assert [finding.rule for finding in report.findings] == ["made.cause", "made.effect"]


def test_a_chain_of_causes_folds_into_one_finding() -> None:
    report = judged(
        "",
        rule("made.first", says("caution"), causes=("made.second",)),
        rule("made.second", says("caution"), causes=("made.third",)),
        rule("made.third", says("note")),
    )
    (finding,) = report.findings
    assert finding.because[0].because[0].rule == "made.third"


def test_rules_that_name_each_other_lose_no_finding() -> None:
    report = judged(
        "",
        rule("made.one", says("fault"), causes=("made.other",)),
        rule("made.other", says("fault"), causes=("made.one",)),
    )
    shown = [f.rule for f in report.findings]
    beneath = [child.rule for f in report.findings for child in f.because]
    assert {"made.one", "made.other"} <= {*shown, *beneath}


def test_a_rule_that_raises_costs_only_itself() -> None:
    def broken(case: Any) -> Iterator[Finding]:
        raise ZeroDivisionError("on purpose")
        yield

    report = judged("", rule("made.broken", broken), rule("made.good", says("note")))
    assert [failed.rule for failed in report.failed] == ["made.broken"]
    assert [finding.rule for finding in report.findings] == ["made.good"]
    assert report.exit_status() == 3


def test_a_class_that_the_rule_does_not_declare_is_an_error_of_the_tool() -> None:
    report = judged("", rule("made.loud", says("stop"), grades=("note",)))
    assert report.failed
    assert report.findings == []


def test_a_missing_figure_is_not_checked_and_named() -> None:
    needs = ("column.pressure_rating",)
    report = judged(
        "kind: column\npressure_rating: null", rule("made.needs", says("stop"), needs=needs)
    )
    assert report.findings == []
    (item,) = report.not_checked
    assert item.missing == ("column.pressure_rating",)
    assert item.can_stop
    assert report.verdict == "run with care"
    assert report.exit_status() == 1, "a sequence whose stops were not looked for is held"
    assert report.exit_status("stop") == 0


def test_a_broken_figure_says_why_it_is_missing() -> None:
    needs = ("column.pressure_rating",)
    report = judged(
        "kind: column\npressure_rating: 400", rule("made.needs", says("stop"), needs=needs)
    )
    assert "written down but cannot be used" in report.not_checked[0].reason


def test_policy_raises_and_lowers_but_never_a_stop() -> None:
    classes = (
        "kind: lab\nclasses:\n"
        "  - {rule: made.fault, to: note, reason: our columns stand it}\n"
        "  - {rule: made.stop, to: note, reason: we are in a hurry}\n"
    )
    report = judged(classes, rule("made.fault", says("fault")), rule("made.stop", says("stop")))
    assert {f.rule: f.grade for f in report.findings} == {
        "made.fault": "note",
        "made.stop": "stop",
    }


DEVIATION = """
kind: method
deviations:
  - {rule: made.rule, reason: seen and measured, approved_by: head of the lab, until: 2026-12-31}
"""


def test_a_full_deviation_moves_a_stop_aside_and_lists_it() -> None:
    report = judged(DEVIATION, rule("made.rule", says("stop")))
    assert report.findings == []
    assert [item.deviation.rule for item in report.set_aside] == ["made.rule"]
    assert report.verdict == "run with care"
    assert report.counts["deviations"] == 1


@pytest.mark.parametrize(
    "gone", [", approved_by: head of the lab", ", until: 2026-12-31", " reason: seen and measured,"]
)
def test_a_stop_stays_when_its_deviation_lacks_a_part(gone: str) -> None:
    report = judged(DEVIATION.replace(gone, ""), rule("made.rule", says("stop")))
    assert [finding.grade for finding in report.findings] == ["stop"]


def test_a_fault_needs_a_reason_but_no_approver() -> None:
    text = "kind: method\ndeviations: [{rule: made.rule, reason: seen and measured}]"
    assert judged(text, rule("made.rule", says("fault"))).findings == []


def test_a_deviation_ends_on_its_last_day() -> None:
    day = datetime.date(2027, 1, 1)
    report = judged(DEVIATION, rule("made.rule", says("stop")), as_of=day)
    assert [finding.grade for finding in report.findings] == ["stop"]


def test_folding_keeps_every_finding() -> None:
    report = judged("", rule("made.a", says("note")), rule("made.b", says("note")))
    again = fold([replace(f) for f in report.findings], ())
    assert len(again) == len(report.findings) == 2


def test_statuses_of_a_report() -> None:
    clear = judged("", rule("made.note", says("note")))
    assert clear.verdict == "clear to run"
    assert clear.exit_status() == 0
    assert clear.exit_status("note") == 1
    care = judged("", rule("made.caution", says("caution")))
    assert care.verdict == "run with care"
    assert care.exit_status() == 0
    assert care.exit_status("caution") == 1
    held = judged("", rule("made.fault", says("fault")))
    assert held.verdict == "do not run"
    assert held.exit_status() == 1
    assert held.exit_status("stop") == 0
