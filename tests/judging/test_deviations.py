"""What a deviation moves aside, what it cannot, and how it is told: good manufacturing practice
asks for reason, approver and end of a documented exception (common practice, no source)."""

from __future__ import annotations

import datetime
import json

import pytest

from methodlint.checking.report import Report
from methodlint.reports.formats import written
from methodlint.reports.prepared import Prepared
from tests.judging.test_engine import judged, rule, says

FULL = "reason: seen and measured, approved_by: head of the lab, until: 2026-12-31"


def deviating(*names: str, parts: str = FULL) -> str:
    lines = "".join(f"  - {{rule: {name}, {parts}}}\n" for name in names)
    return f"kind: method\ndeviations:\n{lines}"


CAUSE = rule("made.cause", says("fault"), causes=("made.effect", "made.mild"))
EFFECT = rule("made.effect", says("stop"))
MILD = rule("made.mild", says("caution"))


def shown(report: Report) -> dict[str, str]:
    return {finding.rule: finding.grade for finding in report.findings}


def aside(report: Report) -> dict[str, str]:
    return {item.finding.rule: item.finding.grade for item in report.set_aside}


def test_mild_consequences_go_aside_with_their_cause() -> None:
    report = judged(deviating("made.cause"), CAUSE, MILD)
    assert shown(report) == {}
    assert aside(report) == {"made.cause": "fault"}
    assert [child.rule for child in report.set_aside[0].finding.because] == ["made.mild"]


def test_a_stop_beneath_a_cause_stands_by_itself() -> None:
    report = judged(deviating("made.cause"), CAUSE, EFFECT, MILD)
    assert shown(report) == {"made.effect": "stop"}
    assert aside(report) == {"made.cause": "fault"}
    assert report.verdict == "do not run"


def test_a_fault_needs_no_approver_although_a_stop_folds_beneath_it() -> None:
    report = judged(deviating("made.cause", parts="reason: measured"), CAUSE, EFFECT)
    assert shown(report) == {"made.effect": "stop"}
    assert aside(report) == {"made.cause": "fault"}


def test_a_consequence_goes_aside_alone_and_its_cause_keeps_its_own_class() -> None:
    report = judged(deviating("made.effect"), CAUSE, EFFECT)
    assert shown(report) == {"made.cause": "fault"}
    assert report.findings[0].because == ()
    assert aside(report) == {"made.effect": "stop"}


def test_cause_and_stop_go_aside_by_a_deviation_each() -> None:
    report = judged(deviating("made.cause", "made.effect"), CAUSE, EFFECT)
    assert shown(report) == {}
    assert aside(report) == {"made.cause": "fault", "made.effect": "stop"}
    assert report.verdict == "run with care"
    assert report.counts["deviations"] == 2


@pytest.mark.parametrize("name", ["' '", "''"])
def test_a_blank_name_approves_nothing(name: str) -> None:
    parts = f"reason: seen and measured, approved_by: {name}, until: 2026-12-31"
    assert shown(judged(deviating("made.effect", parts=parts), EFFECT)) == {"made.effect": "stop"}


def test_policy_moves_what_folds_beneath_another_as_if_it_stood_alone() -> None:
    lower = "kind: lab\nclasses: [{rule: made.cause, to: note, reason: known here}]\n"
    report = judged(lower, CAUSE, rule("made.effect", says("fault")))
    assert shown(report) == {"made.cause": "fault"}, "the fault beneath it still counts"
    assert shown(judged(lower, CAUSE)) == {"made.cause": "note"}


def test_policy_says_what_it_did_and_why() -> None:
    raised = "kind: lab\nclasses: [{rule: made.mild, to: stop, reason: it has cost a column}]\n"
    (finding,) = judged(raised, MILD).findings
    assert finding.grade == "stop"
    assert "caution made stop by the lab's policy: it has cost a column" in finding.message
    assert finding.also[-1].path == ("classes", 0)


def test_the_day_is_that_of_the_sequence_and_a_later_one_that_is_given() -> None:
    """The sound sequence begins on 2026-11-24; no clock of the machine is asked."""
    eve, start = datetime.date(2026, 11, 23), datetime.date(2026, 11, 24)
    ended = deviating("made.mild", parts=f"reason: measured, until: {eve}")
    holds = deviating("made.mild", parts=f"reason: measured, until: {start}")
    assert shown(judged(ended, MILD)) == {"made.mild": "caution"}
    assert shown(judged(ended, MILD, as_of=eve)) == {"made.mild": "caution"}
    assert shown(judged(holds, MILD)) == {}
    assert shown(judged(holds, MILD, as_of=start + datetime.timedelta(1))) == {
        "made.mild": "caution"
    }
    no_start = "---\nkind: sequence\nbegins: null\n"
    assert shown(judged(holds + no_start, MILD)) == {"made.mild": "caution"}, "no day shows it"
    assert shown(judged(holds + no_start, MILD, as_of=start)) == {}


@pytest.mark.parametrize("name", ["words", "json", "sarif", "junit", "markdown"])
def test_every_format_lists_them(name: str) -> None:
    report = judged(deviating("made.effect"), EFFECT)
    text = written(name, Prepared(report))
    flowing = " ".join(text.split())
    for part in ("made.effect", "seen and measured", "head of the lab", "2026-12-31"):
        assert part in flowing, part
    if name == "json":
        data = json.loads(text)
        assert data["counts"]["deviations"] == 1
        assert [item["rule"] for item in data["deviations"]] == ["made.effect"]
    if name == "words":
        assert "1 deviation in force" in text
