"""Deviations: which findings they move aside, and which of them move none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from methodlint.documents.kinds.base import Deviation
from methodlint.documents.loading import Loaded
from methodlint.documents.places import Path
from methodlint.judging.case import Case, DocumentCase
from methodlint.judging.finding import Finding, Grade, worst

if TYPE_CHECKING:
    from methodlint.judging.engine import Judged

OwnGrades = Mapping[tuple[tuple[str, str, Path], str], Grade]
"""Class of each finding by key and message, before it takes the class of what folds beneath."""


@dataclass(frozen=True, slots=True)
class SetAside:
    """A finding that a deviation moves aside, with the deviation and its document."""

    finding: Finding
    deviation: Deviation
    document: Loaded


def is_valid(deviation: Deviation, case: Case, *, stop: bool) -> bool:
    """Whether a deviation has what it needs to move a finding aside.

    A stop needs a named approver and an end date. An end date counts only against the date that
    the check is made for; nobody looks at a clock.
    """
    if not _said(deviation.reason):
        return False
    if stop and not (_said(deviation.approved_by) and deviation.until):
        return False
    return not (
        deviation.until is not None and case.as_of is not None and deviation.until < case.as_of
    )


def _said(text: str | None) -> bool:
    return bool(text and text.strip())


def set_deviations_aside(judged: Judged) -> None:
    """Move findings aside that a valid deviation of one of the case's documents names.

    What folds beneath such a finding goes with it, as its consequence, save a stop: that stands
    by itself until a deviation names its own rule.
    """
    documents = dict(judged.case.documents)
    if isinstance(judged.case, DocumentCase):
        documents["document"] = judged.case.document
    if not any(document.model.deviations for document in documents.values()):
        return
    aside = _Aside(judged, tuple(documents.values()))
    left: list[Finding] = []
    for finding in judged.findings:
        left += aside.looked_at(finding)
    judged.findings = left
    judged.set_aside += aside.found


class _Aside:
    """Goes through findings and what lies beneath them, collecting what is moved aside."""

    def __init__(self, judged: Judged, documents: tuple[Loaded, ...]) -> None:
        self._judged = judged
        self._documents = documents
        self.found: list[SetAside] = []

    def looked_at(self, finding: Finding) -> list[Finding]:
        """Findings that stay in place of this one: itself, or what does not go aside with it."""
        own = self._judged.own.get((finding.key, finding.message), finding.grade)
        below = [kept for child in finding.because for kept in self.looked_at(child)]
        match = self._deviation(finding.rule, stop=own == "stop")
        if match is None:
            return [_with(finding, own, below)]
        stops = [child for child in below if child.grade == "stop"]
        rest = [child for child in below if child.grade != "stop"]
        self.found.append(SetAside(_with(finding, own, rest), *match))
        return stops

    def _deviation(self, rule: str, *, stop: bool) -> tuple[Deviation, Loaded] | None:
        for document in self._documents:
            for deviation in document.model.deviations:
                if deviation.rule == rule and is_valid(deviation, self._judged.case, stop=stop):
                    return deviation, document
        return None


def _with(finding: Finding, own: Grade, below: list[Finding]) -> Finding:
    if not finding.because:
        return finding
    grade = own
    for child in below:
        grade = worst(grade, child.grade)
    return replace(finding, grade=grade, because=tuple(below))


def idle_deviations(results: Iterable[Judged]) -> dict[str, frozenset[int]]:
    """Number the valid deviations that set nothing aside although their rules were applied.

    Returns
    -------
    dict
        Numbers of the deviations by the path of their document.
    """
    documents: dict[str, Loaded] = {}
    applied: dict[str, set[str]] = {}
    open_questions: dict[str, set[str]] = {}
    used: set[int] = set()
    for result in results:
        used |= {id(item.deviation) for item in result.set_aside}
        used |= {
            id(deviation)
            for document in result.case.documents.values()
            for deviation in document.model.deviations
            if any(finding.rule == deviation.rule for finding in _with_beneath(result.findings))
        }
        for document in result.case.documents.values():
            if document.model.deviations:
                documents[document.path] = document
                applied.setdefault(document.path, set()).update(result.applied)
                lost = {item.rule for item in result.not_checked}
                lost |= {item.rule for item in result.failed}
                open_questions.setdefault(document.path, set()).update(lost)
    return {
        path: frozenset(
            number
            for number, deviation in enumerate(document.model.deviations)
            if id(deviation) not in used and deviation.rule in applied[path] - open_questions[path]
        )
        for path, document in documents.items()
    }


def _with_beneath(findings: Iterable[Finding]) -> Iterator[Finding]:
    for finding in findings:
        yield finding
        yield from _with_beneath(finding.because)
