"""The report as JSON: sorted, without clock or machine, the same bytes on every run."""

from __future__ import annotations

import json
from typing import Any

from methodlint import __version__
from methodlint.documents.places import path_text
from methodlint.fluids.table_record import table_record
from methodlint.judging.finding import At, Finding, Measure, NotChecked, When
from methodlint.judging.report import Report

EDITION = 1
_DIGITS = 6


def report_json(report: Report) -> str:
    """Write a report as JSON text with a final newline."""
    return json.dumps(report_data(report), indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def report_data(report: Report) -> dict[str, Any]:
    """Give a report as plain data."""
    tables = table_record()
    return {
        "edition": EDITION,
        "tool": {
            "name": "methodlint",
            "version": __version__,
            "property_library": tables.library,
        },
        "verdict": report.verdict,
        "counts": report.counts,
        "documents": [
            {"path": document.path, "kind": document.kind, "sha256": document.read.sha256}
            for document in report.documents.values()
        ],
        "property_tables": {"version": tables.version, "sha256": tables.sha256},
        "findings": [_finding(finding) for finding in report.findings],
        "not_checked": [_not_checked(item) for item in report.not_checked],
        "deviations": [
            {
                "rule": item.finding.rule,
                "path": item.document.path,
                "reason": item.deviation.reason,
                "approved_by": item.deviation.approved_by,
                "until": item.deviation.until.isoformat() if item.deviation.until else None,
                "finding": _finding(item.finding),
            }
            for item in report.set_aside
        ],
        "known_from_base": [],
        "given": [{"path": path, "value": text} for path, text in report.given],
        "errors": [
            {"rule": failed.rule, "subject": failed.subject, "error": failed.error}
            for failed in report.failed
        ],
    }


def _finding(finding: Finding) -> dict[str, Any]:
    data: dict[str, Any] = {
        "rule": finding.rule,
        "class": finding.grade,
        "possible": finding.possible,
        **_place(finding.at),
        "also": [_place(at) for at in finding.also],
        "subject": finding.subject,
        "when": _when(finding.when),
        "found": _measure(finding.found),
        "limit": _measure(finding.limit),
        "band": _measure(finding.band),
        "message": finding.message,
        "remedy": finding.remedy,
        "because": [_finding(child) for child in finding.because],
    }
    return data


def _place(at: At) -> dict[str, Any]:
    place = at.document.place(at.path)
    return {
        "path": at.document.path,
        "line": place.line,
        "column": place.column,
        "at": path_text(at.path),
    }


def _when(when: When | None) -> dict[str, Any] | None:
    if when is None:
        return None
    return {
        "start_min": _number(when.start, 60.0),
        "end_min": _number(when.end, 60.0),
        "injection": when.injection,
        "last_injection": when.last_injection,
    }


def _measure(measure: Measure | None) -> dict[str, Any] | None:
    if measure is None:
        return None
    return {"value": _number(measure.value), "unit": measure.unit}


def _number(value: float | None, divisor: float = 1.0) -> float | None:
    """Round to six significant digits, so that the last bits of a processor do not show."""
    if value is None or value != value or value in (float("inf"), float("-inf")):
        return None
    return float(f"{value / divisor:.{_DIGITS}g}")


def _not_checked(item: NotChecked) -> dict[str, Any]:
    return {
        "rule": item.rule,
        "path": item.at.document.path,
        "missing": list(item.missing),
        "reason": item.reason,
        "can_stop": item.can_stop,
        "subject": item.subject,
    }
