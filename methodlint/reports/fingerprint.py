"""What makes a finding the same one in another report.

A fingerprint is made of the rule, the document's path under its lab's root, the path of the value
in the document, the value, whom the finding is about, and an ordinal among equals. List items
count by what they are, not by their number: comments, blank lines and other rows above change
nothing.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from methodlint.checking.report import Report, finding_order
from methodlint.documents.loading import Loaded
from methodlint.documents.text.nodes import Mapping as MappingNode
from methodlint.documents.text.nodes import Node, Scalar, SequenceNode, child, children
from methodlint.documents.text.places import Path
from methodlint.judging.finding import Finding

_HEX = 32
_NAMING_KEYS = ("name", "sample", "plate", "well", "position", "time", "part", "kind", "rule")


class Fingerprints:
    """Fingerprints of all findings of a report, those beneath others and set aside included.

    Parameters
    ----------
    report
        The report.
    same_as
        Names under which documents count as the same one in two reports, by their path as
        shown; the path under the lab's root otherwise.
    """

    def __init__(self, report: Report, same_as: Mapping[str, str] | None = None) -> None:
        self._paths = {**report.lab_paths, **(same_as or {})}
        subjects = _subjects(report, self._paths)
        everything = [*report.findings, *(item.finding for item in report.set_aside)]
        counts: dict[str, int] = {}
        self._known: dict[int, str] = {}
        self._kept = everything
        for finding in sorted(with_beneath(everything), key=finding_order):
            if id(finding) in self._known:
                continue
            document = finding.at.document
            parts = (
                finding.rule,
                self.lab_path(document.path),
                _path_words(document, finding.at.path),
                value_words(document, finding.at.path),
                subjects.get(finding.subject, ""),
            )
            text = json.dumps(parts, ensure_ascii=True)
            digest = hashlib.sha256(text.encode("ascii")).hexdigest()[:_HEX]
            counts[digest] = counts.get(digest, 0) + 1
            self._known[id(finding)] = f"{digest}:{counts[digest]}"

    def of(self, finding: Finding) -> str:
        """Fingerprint of one finding of the report: 32 hexadecimal digits, colon, ordinal."""
        return self._known[id(finding)]

    def lab_path(self, path: str) -> str:
        """Path of a document under its lab's root, or the name that it shares with another."""
        return self._paths.get(path, path)


def with_beneath(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Yield findings, each followed by what was folded beneath it."""
    for finding in findings:
        yield finding
        yield from with_beneath(finding.because)


def _subjects(report: Report, paths: Mapping[str, str]) -> dict[str, str]:
    """Name runs the same way whatever folder they were judged from; documents need no name."""
    subjects = {}
    for run in report.runs:
        method = run.documents["method"].path
        instrument = run.documents.get("instrument")
        on = instrument.name if instrument else ""
        subjects[run.name] = f"{paths.get(method, method)} on {on}"
    for told in report.plain_runs:
        method = told.key[0]
        subjects[told.name] = f"{paths.get(method, method)} on {told.instrument}"
    return subjects


def _path_words(document: Loaded, path: Path) -> str:
    """Write a path with list items by their naming keys in place of their numbers."""
    words: list[Any] = []
    node: Node | None = document.read.root
    for step in path:
        node = child(node, step) if node is not None else None
        words.append([_naming(node)] if isinstance(step, int) else step)
    return json.dumps(words, ensure_ascii=True)


def _naming(node: Node | None) -> list[str]:
    if not isinstance(node, MappingNode):
        return []
    named = ((key, node.entries.get(key)) for key in _NAMING_KEYS)
    return [f"{key}={below.text}" for key, below in named if isinstance(below, Scalar)]


def value_words(document: Loaded, path: Path) -> str:
    """Write the value at a path: a scalar or a list item as a whole, nothing for a larger part.

    A larger part changes with every row that is added to it and would not be known again.
    """
    node = document.read.node(path)
    if isinstance(node, Scalar):
        return node.text.strip()
    if node is None or not path or not isinstance(path[-1], int):
        return ""
    return json.dumps(_plain(node), ensure_ascii=True, sort_keys=True)


def _plain(node: Node) -> Any:
    if isinstance(node, Scalar):
        return node.text.strip()
    if isinstance(node, SequenceNode):
        return [_plain(below) for below in node.items]
    return {str(key): _plain(below) for key, below in children(node)}
