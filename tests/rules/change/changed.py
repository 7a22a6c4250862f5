"""Judges one document in two states, for the tests of the rules about changes."""

from __future__ import annotations

from methodlint.documents.loading import Loaded, load
from methodlint.documents.text.reader import read_text
from methodlint.judging.change_case import ChangeCase
from methodlint.judging.engine import judge_case
from methodlint.judging.finding import Finding
from methodlint.judging.loader import built_in_rules


def document(text: str | None) -> Loaded | None:
    """Load a text; None stands for a document that is not there."""
    if text is None:
        return None
    loaded = load(read_text(text.encode(), "a.yaml"), "lab/a.yaml", "a")
    assert loaded is not None
    assert not loaded.problems, loaded.problems
    return loaded


def found_in(
    before: str | None, after: str | None, rule: str, taken_over: tuple[str, ...] = ()
) -> list[Finding]:
    """Findings of one rule about a change of one document."""
    old, new = document(before), document(after)
    case = ChangeCase(
        documents={},
        before=old,
        after=new,
        lab_before=old if old is not None and old.kind == "lab" else None,
        taken_over=taken_over,
        rule_grades={known.id: known.grades for known in built_in_rules()},
    )
    judged = judge_case(case, [known for known in built_in_rules() if known.id == rule])
    assert not judged.failed, judged.failed[0].trace
    return judged.findings
