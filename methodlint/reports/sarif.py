"""The report as SARIF 2.1.0, the interchange format for results of static analysis.

Source: Static Analysis Results Interchange Format (SARIF) Version 2.1.0 Plus Errata 01, OASIS
Standard, 28 August 2023. The caps are those that code hosts put on an upload (from their public
documentation, from memory): 5,000 results shown, 10 MB after gzip.
"""

from __future__ import annotations

import gzip
import json
import os
import re
from collections.abc import Iterator
from typing import Any
from urllib.parse import quote

from methodlint.documents.loading import Loaded
from methodlint.documents.text.one_line import one_line
from methodlint.documents.text.places import Place, path_text
from methodlint.documents.text.visible import visible
from methodlint.judging.finding import At, Finding, Grade
from methodlint.judging.loader import Rule, built_in_rules
from methodlint.reports.prepared import Prepared
from methodlint.reports.wording import failure_words, figures, moment
from methodlint.version import __version__

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
MOST_RESULTS = 5_000
MOST_BYTES = 10_000_000
BASE = "LABFILES"
# Readers want a URI here. The documentation comes with the tool and lies at no address.
_INFORMATION = "urn:methodlint:documentation"

_LEVELS: dict[Grade, str] = {
    "stop": "error",
    "fault": "error",
    "caution": "warning",
    "note": "note",
}
_STATES = {"new": "new", "worse": "updated", "known": "unchanged"}
_LINK = re.compile(r"\[[^\]]*\]\(")
_PLACEHOLDER = re.compile(r"\{\d+\}")


def sarif_text(prepared: Prepared) -> str:
    """Write a report as SARIF; the worst results are kept if there are too many."""
    most = MOST_RESULTS
    while True:
        text = json.dumps(_log(prepared, most), indent=1, ensure_ascii=False, allow_nan=False)
        size = len(gzip.compress(text.encode("utf-8"), mtime=0))
        if size <= MOST_BYTES or most <= 1:
            return text + "\n"
        most = most * MOST_BYTES // (size + size // 10)


def _log(prepared: Prepared, most: int) -> dict[str, Any]:
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [_run(prepared, most)]}


def _run(prepared: Prepared, most: int) -> dict[str, Any]:
    report = prepared.report
    aside = {id(item.finding): item for item in report.set_aside}
    everything = [*prepared.worst_first(report.findings), *(i.finding for i in report.set_aside)]
    kept = everything[:most]
    documents = {path: number for number, path in enumerate(report.documents)}
    names = sorted({finding.rule for finding in kept})
    rules = {name: number for number, name in enumerate(names)}
    results = []
    for finding in kept:
        result = _result(finding, rules, documents)
        result["partialFingerprints"] = {"primaryLocationLineHash": prepared.marks.of(finding)}
        if id(finding) in aside:
            deviation = aside[id(finding)].deviation
            result["suppressions"] = [
                {
                    "kind": "inSource",
                    "status": "accepted",
                    "justification": _message(_deviation_words(aside[id(finding)])),
                }
            ]
            assert deviation.reason
        elif prepared.standing is not None:
            result["baselineState"] = _STATES[prepared.state(finding)]
        results.append(result)
    return {
        "tool": {
            "driver": {
                "name": "methodlint",
                "fullName": f"methodlint {__version__}",
                "version": __version__,
                "semanticVersion": __version__,
                "informationUri": _INFORMATION,
                "rules": _rules(names, report.rules_of_lab),
                "notifications": _NOTIFICATIONS,
            }
        },
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {
            BASE: {"description": {"text": "The folder that the check was run in."}}
        },
        "invocations": [
            {
                "executionSuccessful": not report.unjudged,
                "toolExecutionNotifications": _notifications(prepared, len(everything), len(kept)),
            }
        ],
        "artifacts": [_artifact(document) for document in report.documents.values()],
        "results": results,
        "properties": {"verdict": report.verdict, "counts": report.counts},
    }


def _deviation_words(item: Any) -> str:
    deviation = item.deviation
    who = f", approved by {deviation.approved_by}" if deviation.approved_by else ""
    until = f", until {deviation.until.isoformat()}" if deviation.until else ""
    return f"{deviation.reason}{who}{until} ({item.document.path})"


def _result(finding: Finding, rules: dict[str, int], documents: dict[str, int]) -> dict[str, Any]:
    result: dict[str, Any] = {
        "ruleId": finding.rule,
        "ruleIndex": rules[finding.rule],
        "level": _LEVELS[finding.grade],
        "message": {"text": _message(_words(finding))},
        "locations": [_location(finding.at, documents)],
        "properties": {"class": finding.grade, "possible": finding.possible},
    }
    fixes = [*_fixes(finding, documents), *_replacements(finding, documents)]
    if fixes:
        result["fixes"] = fixes
    if finding.lowered and finding.moved is not None:
        result["properties"]["lowered_from"] = finding.moved.grade
    related = [(at, "see also") for at in finding.also]
    related += [(child.at, f"{child.message} ({child.rule})") for child in finding.because]
    if related:
        result["relatedLocations"] = [
            {"id": number, **_location(at, documents), "message": {"text": _message(words)}}
            for number, (at, words) in enumerate(related, start=1)
        ]
    return result


def _fixes(finding: Finding, documents: dict[str, int]) -> Iterator[dict[str, Any]]:
    """Remedies that replace values which are written today."""
    for remedy in finding.remedies:
        if not remedy.changes or remedy.at_bench or None in remedy.places:
            continue
        by_file: dict[str, list[dict[str, Any]]] = {}
        for (file, _, value, _), place in zip(remedy.changes, remedy.places, strict=True):
            assert place is not None
            by_file.setdefault(file, []).append(_replacement(place, one_line(value)))
        yield {
            "description": {"text": _message(remedy.text)},
            "artifactChanges": [
                {"artifactLocation": _indexed(file, documents), "replacements": made}
                for file, made in by_file.items()
            ],
        }


def _replacements(finding: Finding, documents: dict[str, int]) -> Iterator[dict[str, Any]]:
    """What may be meant in place of what is written."""
    for text in finding.meant:
        made = [_replacement(finding.at.place, one_line(text))]
        where = _indexed(finding.at.file, documents)
        yield {
            "description": {"text": _message(f"write {text}")},
            "artifactChanges": [{"artifactLocation": where, "replacements": made}],
        }


def _replacement(place: Place, text: str) -> dict[str, Any]:
    return {"deletedRegion": _region(place), "insertedContent": {"text": text}}


def _words(finding: Finding) -> str:
    text = f"{finding.grade.capitalize()}: {finding.message}."
    if figures(finding):
        text += f" Figure: {figures(finding)}."
    if finding.when is not None and moment(finding.when):
        text += f" When: {moment(finding.when)}."
    if finding.subject and finding.subject != finding.at.document.path:
        text += f" In: {finding.subject}."
    if finding.remedy:
        text += f" Do: {finding.remedy}."
    return text


def _message(text: str) -> str:
    """Make a text one that no viewer takes for a link or a placeholder (SARIF 3.11.5, 3.11.6)."""
    text = visible(text)
    if _LINK.search(text):
        text = text.replace("\\", "\\\\").replace("[", "\\[").replace("]", "\\]")
    if _PLACEHOLDER.search(text):
        text = text.replace("{", "{{").replace("}", "}}")
    return text


def _location(at: At, documents: dict[str, int]) -> dict[str, Any]:
    location: dict[str, Any] = {
        "physicalLocation": {
            "artifactLocation": _indexed(at.file, documents),
            "region": _region(at.place),
        }
    }
    if at.path:
        location["logicalLocations"] = [
            {"fullyQualifiedName": visible(path_text(at.path)), "kind": "member"}
        ]
    return location


def _region(place: Place) -> dict[str, int]:
    return {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }


def uri_of(path: str) -> str:
    """Write a path as a percent-encoded URI reference, byte by byte as the file is named."""
    encoded = quote(os.fsencode(path), safe="/-._~")
    return f"file://{encoded}" if path.startswith("/") else encoded


def _indexed(path: str, documents: dict[str, int]) -> dict[str, Any]:
    where = _artifact_location(path)
    return {**where, "index": documents[path]} if path in documents else where


def _artifact_location(path: str) -> dict[str, Any]:
    if path.startswith("/"):
        return {"uri": uri_of(path)}
    return {"uri": uri_of(path), "uriBaseId": BASE}


def _artifact(document: Loaded) -> dict[str, Any]:
    artifact: dict[str, Any] = {"location": _artifact_location(document.path)}
    if document.read.sha256:
        artifact["length"] = len(document.read.data)
        artifact["hashes"] = {"sha-256": document.read.sha256}
    return artifact


def _rules(names: list[str], of_lab: tuple[Rule, ...]) -> list[dict[str, Any]]:
    known = {rule.id: rule for rule in (*built_in_rules(), *of_lab)}
    return [_rule(name, known.get(name)) for name in names]


def _rule(name: str, rule: Rule | None) -> dict[str, Any]:
    title = rule.title if rule is not None else f"A rule of the lab: {visible(name)}."
    page = "\n".join(visible(line) for line in rule.page.strip().split("\n")) if rule else title
    level = _LEVELS[rule.grades[0]] if rule is not None else "warning"
    reason = page.partition("\nReason\n")[2].partition("\n\n")[0]
    full = f"{title} {' '.join(reason.split())}".strip()
    return {
        "id": name,
        "name": "".join(part.capitalize() for part in re.split(r"[.-]", name)),
        "shortDescription": {"text": _message(title)},
        "fullDescription": {"text": _message(full)},
        "help": {"text": page},
        "defaultConfiguration": {"level": level},
    }


def _notification(name: str, text: str, help_text: str) -> dict[str, Any]:
    return {
        "id": name,
        "shortDescription": {"text": text},
        "fullDescription": {"text": f"{text} {help_text}"},
        "help": {"text": help_text},
    }


_NOTIFICATIONS = [
    _notification(
        "rule-failed",
        "A rule failed: an error of this tool.",
        "The other rules were applied. Report it with the documents.",
    ),
    _notification(
        "not-readable",
        "A document, a value or a reference could not be used.",
        "Put it right and check again: what depends on it was not judged.",
    ),
    _notification(
        "results-cut",
        "There were too many results to list them all.",
        "The worst were kept. Put them right first, or check fewer documents at a time.",
    ),
]


def _notifications(prepared: Prepared, all_results: int, kept: int) -> list[dict[str, Any]]:
    report = prepared.report
    told: list[dict[str, Any]] = []

    def tell(number: int, level: str, text: str, document: Loaded | None = None) -> None:
        notification: dict[str, Any] = {
            "descriptor": {"id": _NOTIFICATIONS[number]["id"], "index": number},
            "level": level,
            "message": {"text": _message(text)},
        }
        if document is not None:
            place = {"artifactLocation": _artifact_location(document.path)}
            notification["locations"] = [{"physicalLocation": place}]
        told.append(notification)

    for text in failure_words(report):
        tell(0, "error", f"{text[0].upper()}{text[1:]}.")
    for item in report.unusable[:MOST_RESULTS]:
        text = f"{item.subject} could not be used as it stands: {item.reason}."
        tell(1, "error", text, report.documents.get(item.subject))
    if kept < all_results:
        cut = all_results - kept
        tell(2, "warning", f"{cut} of {all_results} results are left out, the mildest ones.")
    return told
