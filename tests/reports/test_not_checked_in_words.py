"""What is not checked is listed whole where all can be judged, and by name where it cannot."""

from __future__ import annotations

import dataclasses

from methodlint.judging.unjudged import Unjudged
from methodlint.reports.prepared import Prepared
from methodlint.reports.text import prepared_text
from tests.rules.harness import judged

UNUSABLE = [Unjudged("method.yaml", "it cannot be used", "document.unreadable", 1)]
LACKING = "kind: method\noutlet_pressure: null\n---\nkind: column\nphase: null\n"


def test_every_rule_that_is_not_checked_is_named_once_either_way() -> None:
    report = judged(LACKING)
    names = {item.rule for item in report.not_checked}
    assert len(names) > 10
    for unreadable in (False, True):
        unusable = UNUSABLE if unreadable else []
        text = prepared_text(Prepared(dataclasses.replace(report, unusable=unusable)))
        tail = text[text.index("NOT CHECKED") :]
        assert all(name in tail for name in names)
        assert ("first put right what stands above" in tail) is unreadable


def test_what_could_stop_a_run_keeps_its_own_figures() -> None:
    report = dataclasses.replace(judged(LACKING), unusable=UNUSABLE)
    text = prepared_text(Prepared(report))
    tail = text[text.index("NOT CHECKED") :]
    before, after = tail.split("first put right what stands above", 1)
    rules = {item.rule for item in report.not_checked if item.can_stop}
    assert rules
    assert all(rule in before for rule in rules)
    assert not any(f" {rule}," in after for rule in rules)
