"""A comparison of two reports as JSON."""

from __future__ import annotations

from typing import Any

from methodlint.documents.text.visible import visible
from methodlint.reports.base_report import Mark
from methodlint.reports.consequences import rounded
from methodlint.reports.consequences_compared import (
    ComparedConsequences,
    FigureChange,
    SubjectChange,
)
from methodlint.reports.json_report import EDITION, json_text


def comparison_json(comparison: ComparedConsequences) -> str:
    """Write a comparison as JSON text with a final newline."""
    old, new = comparison.verdicts
    return json_text(
        {
            "edition": EDITION,
            "verdict": {"old": visible(old), "new": visible(new)},
            "documents": [
                {"path": visible(path), "change": word} for path, word in comparison.documents
            ],
            "subjects": [_subject(subject) for subject in comparison.subjects],
            "appearing": [_mark(mark) for mark in comparison.appearing],
            "worse": [_mark(mark) for mark in comparison.worse],
            "vanishing": [_mark(mark) for mark in comparison.vanishing],
            "staying": comparison.staying,
        }
    )


def _subject(subject: SubjectChange) -> dict[str, Any]:
    return {
        "subject": visible(subject.subject),
        "only": subject.only,
        "why": visible(subject.why),
        "figures": {change.quantity.key: _figure(change) for change in subject.figures},
    }


def _figure(change: FigureChange) -> dict[str, Any]:
    return {
        "unit": change.quantity.unit,
        "old": rounded(change.old),
        "new": rounded(change.new),
        "moves": change.moves,
    }


def _mark(mark: Mark) -> dict[str, Any]:
    return {
        "fingerprint": visible(mark.fingerprint),
        "rule": visible(mark.rule),
        "class": mark.grade,
        "path": visible(mark.path),
        "line": mark.line,
        "message": visible(mark.message),
    }
