"""Judges changes of the sound lab, for the tests of single rules."""

from __future__ import annotations

from methodlint.checking.report import Report
from methodlint.judging.finding import Finding
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook import try_rules


def judged(changes: str, *rule_ids: str) -> Report:
    """Judge the sound lab with changes laid over it, by some rules or by all.

    `changes` holds documents divided by `---`, each with its `kind:` and what differs; lists are
    replaced whole, `null` removes a key.
    """
    rules = tuple(rule for rule in built_in_rules() if not rule_ids or rule.id in rule_ids)
    assert len(rules) >= max(len(rule_ids), 1), f"no rule of the name {rule_ids}"
    report = try_rules.judged(changes, *rules)
    assert misspelt(report) == [], "a key that is not read leaves the case as it was"
    return report


def misspelt(report: Report) -> list[str]:
    """Keys of the documents that no kind knows."""
    return [
        problem.message
        for document in report.documents.values()
        for problem in document.problems
        if problem.rule == "document.unknown-key"
    ]


def findings(changes: str, *rule_ids: str) -> list[Finding]:
    """Findings of the sound lab with changes; see `judged`."""
    return judged(changes, *rule_ids).findings
