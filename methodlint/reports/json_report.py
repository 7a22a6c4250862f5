"""The report as JSON: sorted, without clock or machine, the same bytes on every run."""

from __future__ import annotations

import json
from typing import Any

from methodlint.checking.report import Report
from methodlint.documents.text.places import path_text
from methodlint.documents.text.visible import visible
from methodlint.fluids.table_record import table_record
from methodlint.judging.finding import At, Finding, Measure, NotChecked, Remedy, When
from methodlint.reports.consequences import consequences_data, rounded
from methodlint.reports.fingerprint import Fingerprints
from methodlint.reports.week import calendar_data
from methodlint.version import __version__

EDITION = 1


def json_text(data: dict[str, Any]) -> str:
    """Write plain data as JSON: keys sorted, no number that JSON does not know."""
    return json.dumps(data, indent=2, sort_keys=True, ensure_ascii=False, allow_nan=False) + "\n"


def report_data(report: Report, marks: Fingerprints | None = None) -> dict[str, Any]:
    """Give a report as plain data; hidden characters are made visible.

    Parameters
    ----------
    report
        The report.
    marks
        Fingerprints of its findings, if they have been made already.
    """
    plain: dict[str, Any] = _shown(_data(report, marks or Fingerprints(report)))
    return plain


def _shown(data: Any) -> Any:
    if isinstance(data, str):
        return visible(data)
    if isinstance(data, dict):
        return {key: _shown(value) for key, value in data.items()}
    return [_shown(item) for item in data] if isinstance(data, list) else data


def _data(report: Report, marks: Fingerprints) -> dict[str, Any]:
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
        "judged_in_part": report.in_part,
        "documents": [
            {
                "path": document.path,
                "lab_path": marks.lab_path(document.path),
                "kind": document.kind,
                "sha256": document.read.sha256,
            }
            for document in report.documents.values()
        ]
        + [
            {
                "path": table.path,
                "lab_path": marks.lab_path(table.path),
                "kind": "table",
                "sha256": table.sha256,
            }
            for table in report.tables
        ],
        "property_tables": {"version": tables.version, "sha256": tables.sha256},
        "findings": [
            {**_finding(finding, marks), "raised_for": report.judged(finding)}
            for finding in report.findings
        ],
        "not_checked": [_not_checked(item) for item in report.not_checked],
        "deviations": [
            {
                "rule": item.finding.rule,
                "path": item.document.path,
                "reason": item.deviation.reason,
                "approved_by": item.deviation.approved_by,
                "until": item.deviation.until.isoformat() if item.deviation.until else None,
                "finding": _finding(item.finding, marks),
            }
            for item in report.set_aside
        ],
        "known_from_base": [],
        "gone_from_base": [],
        **consequences_data(report),
        "calendar": calendar_data(report),
        "given": [{"path": path, "value": text} for path, text in report.given],
        "as_of": report.as_of.isoformat() if report.as_of is not None else None,
        "lowered": [_lowered(finding, marks) for finding in report.lowered],
        "unjudged": [
            {
                "subject": item.subject,
                "line": item.line,
                "rule": item.rule,
                "reason": item.reason,
                "status": item.status,
            }
            for item in report.unjudged
        ],
        "errors": [
            {"rule": failed.rule, "subject": failed.subject, "error": failed.error}
            for failed in report.failed
        ],
    }


def _finding(finding: Finding, marks: Fingerprints) -> dict[str, Any]:
    data: dict[str, Any] = {
        "rule": finding.rule,
        "fingerprint": marks.of(finding),
        "class": finding.grade,
        "possible": finding.possible,
        **_place(finding.at),
        "also": [_place(at) for at in finding.also],
        "subject": finding.subject,
        "when": _when(finding.when),
        "found": _measure(finding.found),
        "limit": _measure(finding.limit),
        "band": _measure(finding.band),
        "band_below": _measure(finding.band_below),
        "message": finding.message,
        "remedy": finding.remedy,
        "remedies": [_remedy(one) for one in finding.remedies if not one.at_bench],
        "bench_work": [_bench_work(one) for one in finding.remedies if one.at_bench],
        "because": [_finding(child, marks) for child in finding.because],
    }
    return data


def _remedy(remedy: Remedy) -> dict[str, Any]:
    changes = [
        {"path": file, "at": at, "value": value, "insert": insert}
        for file, at, value, insert in remedy.changes
    ]
    return {**_bench_work(remedy), "changes": changes}


def _bench_work(remedy: Remedy) -> dict[str, Any]:
    return {
        "text": remedy.text,
        "resolves": list(remedy.resolves),
        "leaves": [{"rule": rule, "class": grade} for rule, grade in remedy.leaves],
    }


def _lowered(finding: Finding, marks: Fingerprints) -> dict[str, Any]:
    moved = finding.moved
    assert moved is not None
    return {
        "rule": finding.rule,
        "fingerprint": marks.of(finding),
        "from": moved.grade,
        "to": finding.grade,
        "reason": moved.reason,
        "path": moved.at.file,
        "line": moved.at.place.line,
    }


def _place(at: At) -> dict[str, Any]:
    place = at.place
    cell = {"cell": place.cell} if place.cell else {}
    return {
        **cell,
        "path": at.file,
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
        "at": path_text(at.path),
    }


def _when(when: When | None) -> dict[str, Any] | None:
    if when is None:
        return None
    return {
        "start_min": rounded(None if when.start is None else when.start / 60.0),
        "end_min": rounded(None if when.end is None else when.end / 60.0),
        "injection": when.injection,
        "last_injection": when.last_injection,
    }


def _measure(measure: Measure | None) -> dict[str, Any] | None:
    if measure is None:
        return None
    return {"value": rounded(measure.value), "unit": measure.unit}


def _not_checked(item: NotChecked) -> dict[str, Any]:
    return {
        "rule": item.rule,
        "path": item.at.document.path,
        "missing": list(item.missing),
        "reason": item.reason,
        "can_stop": item.can_stop,
        "subject": item.subject,
    }
