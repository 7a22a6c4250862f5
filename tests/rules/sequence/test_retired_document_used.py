"""sequence.retired-document-used; common practice, no source."""

from __future__ import annotations

import pytest

from methodlint.checking.check import judge_documents
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import _library, lab_with
from tests.rules.harness import findings

RULE = "sequence.retired-document-used"
KINDS = ("method", "column", "instrument", "supply", "solvents", "room", "sequence", "lab")


@pytest.mark.parametrize("status", ["approved", "draft", "null"])
def test_silent_for_every_other_status(status: str) -> None:
    for kind in KINDS:
        assert findings(f"kind: {kind}\nstatus: {status}\n", RULE) == []


@pytest.mark.parametrize("kind", KINDS)
def test_whatever_a_sequence_uses(kind: str) -> None:
    (found,) = findings(f"kind: {kind}\nstatus: retired\n", RULE)
    assert found.grade == "fault"
    assert found.at.document.kind == kind


def test_a_method_that_is_judged_by_itself_is_a_caution() -> None:
    documents = lab_with("kind: method\nstatus: retired\n")
    rules = tuple(rule for rule in built_in_rules() if rule.id == RULE)
    report = judge_documents(_library(documents), [documents["method"]], rules)
    assert [f.grade for f in report.findings] == ["caution"]
