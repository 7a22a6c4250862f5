"""A documented exception has a reason, a name and an end: common practice, no source."""

from __future__ import annotations

import datetime

from tests.rules.document.pages import found_in, report_on
from tests.rules.harness import judged

RULE = "document.deviation-unjustified"
FULL = "reason: seen sound, approved_by: Head of lab, until: 2027-01-31"
DAY = datetime.date(2026, 11, 24)


def _with(deviation: str) -> str:
    return f"kind: method\ndeviations:\n  - {{{deviation}}}\n"


def test_silent_for_a_complete_one() -> None:
    assert found_in(_with(f"rule: phase.two-phase-at-outlet, {FULL}"), RULE, DAY) == []


def test_silent_on_its_last_day_and_without_a_day_to_judge_by() -> None:
    text = _with(f"rule: phase.two-phase-at-outlet, {FULL}")
    assert found_in(text, RULE, datetime.date(2027, 1, 31)) == []
    assert found_in(text, RULE) == []


def test_silent_for_a_rule_of_the_lab_s_own() -> None:
    lab = "kind: lab\nrule_folders: [our-rules]\n"
    assert found_in(_with(f"rule: house.our-own, {FULL}"), RULE, DAY, lab) == []


def test_what_is_missing_is_named() -> None:
    (found,) = found_in(_with("rule: phase.two-phase-at-outlet"), RULE, DAY)
    assert found.grade == "fault"
    assert "lacks reason, approved_by, until" in found.message


def test_an_expired_one() -> None:
    text = _with(f"rule: phase.two-phase-at-outlet, {FULL}")
    (found,) = found_in(text, RULE, datetime.date(2027, 2, 1))
    assert "expired on 2027-01-31, before 2027-02-01" in found.message


def test_a_rule_that_does_not_exist() -> None:
    (found,) = found_in(_with(f"rule: phase.two-phase-at-outlt, {FULL}"), RULE, DAY)
    assert "names a rule that does not exist" in found.message
    assert found.remedy == "did you mean phase.two-phase-at-outlet?"


_OUTLET = "phase.two-phase-at-outlet"
_LAB = f"kind: method\ndeviations:\n  - {{rule: {_OUTLET}, {FULL}}}\n"


def test_idle_where_the_rule_was_applied_and_is_silent() -> None:
    (found,) = judged(_LAB, RULE, _OUTLET).findings
    assert found.grade == "caution"
    assert "accepts nothing" in found.message


def test_not_idle_where_it_sets_a_finding_aside() -> None:
    hot = _LAB + "oven_temperature: 60 degC\noutlet_pressure: 90 bar\n"
    report = judged(hot, RULE, _OUTLET)
    assert report.findings == []
    assert [item.finding.rule for item in report.set_aside] == [_OUTLET]


def test_not_idle_where_the_rule_could_not_be_checked() -> None:
    report = judged(_LAB + "outlet_pressure: null\n", RULE, _OUTLET)
    assert report.findings == []
    assert report.not_checked


def test_not_idle_where_the_rule_was_not_applied() -> None:
    assert judged(_LAB, RULE).findings == []


def test_an_expired_one_in_a_method_is_judged_by_the_day_of_the_sequence() -> None:
    late = _LAB + "---\nkind: sequence\nbegins: 2027-02-02T09:00\n"
    (found,) = judged(late, RULE, _OUTLET).findings
    assert "expired on 2027-01-31, before 2027-02-02" in found.message


def test_a_deviation_from_a_rule_about_documents_can_be_used() -> None:
    text = _with(f"rule: document.value-implausible, {FULL}") + "flow: 200 mL/min\n"
    report = report_on(text, RULE, "document.value-implausible", as_of=DAY)
    assert [f for f in report.findings if f.at.document.name == "page"] == []
    assert len(report.set_aside) == 1


def test_a_name_three_letters_off_is_offered_and_one_farther_off_is_not() -> None:
    for name, remedy in (
        ("phase.two-phase-at-out", "did you mean phase.two-phase-at-outlet?"),
        ("phase.two-phase-at-ou", "use the id of the finding"),
    ):
        (found,) = found_in(_with(f"rule: {name}, {FULL}"), RULE, DAY)
        assert found.remedy == remedy
