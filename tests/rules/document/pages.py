"""Judges single documents, for the tests of the rules about them."""

from __future__ import annotations

import datetime

from methodlint.checking.check import judge_documents
from methodlint.checking.report import Report
from methodlint.documents.library import MemoryLibrary
from methodlint.documents.loading import load, nothing_read
from methodlint.documents.text.reader import read_text
from methodlint.judging.finding import Finding
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import _tables, lab_with


def report_on(
    text: str, *rule_ids: str, as_of: datetime.date | None = None, lab: str = ""
) -> Report:
    """Judge a whole document as it stands, beside the cards of the sound lab."""
    rules = tuple(rule for rule in built_in_rules() if rule.id in rule_ids)
    assert len(rules) == len(rule_ids), f"no rule of the name {rule_ids}"
    read = read_text(text.encode(), "page.yaml")
    loaded = load(read, "page.yaml", "page", _tables(read))
    if loaded is None:
        loaded = nothing_read(read, "page.yaml", "page", read.problems)
    cards = {(card.kind, card.name): card for card in lab_with("").values()}
    home = load(read_text(lab.encode(), "lab.yaml"), "lab.yaml", "lab") if lab else None
    report = judge_documents(MemoryLibrary(cards, lab=home), [loaded], rules, as_of)
    assert not report.failed, report.failed[0].trace
    return report


def found_in(
    text: str, rule_id: str, as_of: datetime.date | None = None, lab: str = ""
) -> list[Finding]:
    """Findings of one rule in the document itself."""
    report = report_on(text, rule_id, as_of=as_of, lab=lab)
    return [finding for finding in report.findings if finding.at.document.name == "page"]
