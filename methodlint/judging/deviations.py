"""Deviations: which findings they move aside, and which of them move none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from methodlint.documents.kinds.base import Deviation
from methodlint.documents.loading import Loaded
from methodlint.documents.text.visible import has_letters
from methodlint.judging.case import Case, DocumentCase
from methodlint.judging.finding import Finding, Grade, guards_meaning, worst
from methodlint.judging.judged import Judged, SetAside
from methodlint.judging.line_case import LineCase

_JUDGED = ("method", "sequence")


def is_valid(deviation: Deviation, case: Case, *, stop: bool) -> bool:
    """Whether a deviation has what it needs to move a finding aside.

    A stop needs a named approver and an end date. A deviation with an end is in force only where
    the date that the check is made for shows it: without one, nobody knows that it has not ended.
    """
    if not has_letters(deviation.reason or ""):
        return False
    if stop and not (has_letters(deviation.approved_by or "") and deviation.until):
        return False
    if deviation.until is None:
        return True
    day = case.last_day
    return day is not None and day <= deviation.until


def set_deviations_aside(judged: Judged) -> None:
    """Move findings aside that a valid deviation of a document that they concern names.

    They concern what is judged, the method of a run and the sequence, and the documents that they
    point into: a deviation in the card of a column has no say about the air of the room. What folds beneath such a finding goes with it, as its consequence, save a stop: that stands
    by itself until a deviation names its own rule.
    """
    documents = dict(judged.case.documents)
    if isinstance(judged.case, DocumentCase):
        documents["document"] = judged.case.document
    if isinstance(judged.case, LineCase):
        # What is accepted of a method says nothing about a flush that somebody puts beside it.
        del documents["method"]
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
        self._named: dict[str, list[tuple[Deviation, Loaded]]] = {}
        for document in documents:
            for deviation in document.model.deviations:
                self._named.setdefault(deviation.rule, []).append((deviation, document))
        self.found: list[SetAside] = []

    def looked_at(self, finding: Finding) -> list[Finding]:
        """Findings that stay in place of this one: itself, or what does not go aside with it."""
        own = self._judged.own.get((finding.key, finding.message), finding.grade)
        below = [kept for child in finding.because for kept in self.looked_at(child)]
        match = self._deviation(finding, own)
        if match is None:
            return [_with(finding, own, below)]
        stops = [child for child in below if child.grade == "stop"]
        rest = [child for child in below if child.grade != "stop"]
        self.found.append(SetAside(_with(finding, own, rest), *match))
        return stops

    def _deviation(self, finding: Finding, own: Grade) -> tuple[Deviation, Loaded] | None:
        before = finding.moved.grade if finding.moved is not None else own
        if guards_meaning(finding.rule, before):
            return None
        concerned = {at.document.path for at in (finding.at, *finding.also)}
        for deviation, document in self._named.get(finding.rule, ()):
            if document.kind not in _JUDGED and document.path not in concerned:
                continue
            if is_valid(deviation, self._judged.case, stop=own == "stop"):
                return deviation, document
        return None


def _with(finding: Finding, own: Grade, below: list[Finding]) -> Finding:
    if not finding.because:
        return finding
    grade = own
    for child in below:
        grade = worst(grade, child.grade)
    return replace(finding, grade=grade, because=tuple(below))


@dataclass(frozen=True, slots=True)
class DeviationUse:
    """What one judgement says about the deviations of one document.

    Attributes
    ----------
    rules
        Rule that each deviation names.
    used
        Numbers of the deviations that set something aside, or are not valid and whose finding is
        there.
    applied, open_questions
        Rules that were applied, and rules that were not checked or failed.
    """

    rules: tuple[str, ...]
    used: frozenset[int]
    applied: frozenset[str]
    open_questions: frozenset[str]


def deviation_uses(result: Judged) -> dict[str, DeviationUse]:
    """Say for every document of a case what became of its deviations, by path."""
    uses: dict[str, DeviationUse] = {}
    for document in result.case.documents.values():
        if not document.model.deviations:
            continue
        aside = {id(item.deviation) for item in result.set_aside}
        found = {finding.rule for finding in _with_beneath(result.findings)}
        uses[document.path] = DeviationUse(
            tuple(deviation.rule for deviation in document.model.deviations),
            frozenset(
                number
                for number, deviation in enumerate(document.model.deviations)
                if id(deviation) in aside
                or (deviation.rule in found and not is_valid(deviation, result.case, stop=True))
            ),
            frozenset(result.applied),
            frozenset(
                [item.rule for item in result.not_checked] + [item.rule for item in result.failed]
            ),
        )
    return uses


def idle_deviations(results: Iterable[dict[str, DeviationUse]]) -> dict[str, frozenset[int]]:
    """Number the valid deviations that set nothing aside although their rules were applied.

    Returns
    -------
    dict
        Numbers of the deviations by the path of their document.
    """
    everything: dict[str, list[DeviationUse]] = {}
    for uses in results:
        for path, use in uses.items():
            everything.setdefault(path, []).append(use)
    idle = {}
    for path, found in everything.items():
        used = frozenset[int]().union(*(use.used for use in found))
        applied = frozenset[str]().union(*(use.applied for use in found))
        lost = frozenset[str]().union(*(use.open_questions for use in found))
        idle[path] = frozenset(
            number
            for number, rule in enumerate(found[0].rules)
            if number not in used and rule in applied - lost
        )
    return idle


def _with_beneath(findings: Iterable[Finding]) -> Iterator[Finding]:
    for finding in findings:
        yield finding
        yield from _with_beneath(finding.because)
