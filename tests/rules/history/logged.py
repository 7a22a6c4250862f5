"""Logbooks of the sound lab, for the tests of the rules on histories.

The sound method is predicted to start at 217 bar, 65 bar of it in the column: 6.5 bar are 10 %.
"""

from __future__ import annotations

from collections.abc import Sequence

from methodlint.checking.review import review_loaded
from methodlint.judging.finding import Finding, NotChecked
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import _library, lab_with

GOOD = (217, 218, 216, 217, 217, 218)


def entries(*rows: str) -> str:
    """A logbook of such entries, each as in a flow mapping."""
    return "kind: logbook\nentries:\n" + "".join(f"  - {{{row}}}\n" for row in rows)


def daily(values: Sequence[object], key: str = "start_pressure: {} bar", more: str = "") -> str:
    """A logbook with one reading a day from 2026-09-01 on."""
    return entries(
        *(f"date: 2026-09-{n:02}, {key.format(v)}{more}" for n, v in enumerate(values, 1))
    )


def reviewed(text: str, rule: str, more: str = "") -> tuple[list[Finding], list[NotChecked]]:
    """Findings of one rule, and what it could not check."""
    documents = lab_with(f"{text}---\n{more}" if more else text)
    rules = tuple(one for one in built_in_rules() if one.id == rule)
    assert len(rules) == 1
    report = review_loaded(_library(documents), documents["logbook"], None, rules).report
    assert not report.failed, report.failed[0].trace
    assert not [p for d in report.documents.values() for p in d.problems], "a key is misspelt"
    return report.findings, report.not_checked


def findings(text: str, rule: str, more: str = "") -> list[Finding]:
    """Findings of one rule."""
    return reviewed(text, rule, more)[0]
