"""Tries the candidates of a remedy: changes the document, rehearses, judges again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Any

from methodlint.checking.changed import changed_documents
from methodlint.checking.line_cases import added_lines
from methodlint.checking.remedy_agreement import agree
from methodlint.checking.remedy_search import Search, clears, does_harm, flat, with_remedy
from methodlint.documents.loading import Loaded
from methodlint.judging.case import BatchCase, Case, DocumentCase, RunCase
from methodlint.judging.engine import judge_case
from methodlint.judging.finding import Candidate, Finding, severity
from methodlint.judging.judged import Judged
from methodlint.judging.line_case import LineCase
from methodlint.judging.loader import Rule

Rebuild = Callable[[Case, dict[str, Loaded]], Case]
Rehearse = Callable[[Sequence[Case]], None]

# Enough to fill a march, few enough to keep their arrays in memory.
_TRIALS_TOGETHER = 48

_FINDINGS_OF_A_RULE = 24

_CASES_BESIDE = 24
"""Other cases of a sequence in which a remedy is tried, the first ones; each takes a rehearsal."""


def leave_out_remedies(everything: Sequence[Judged]) -> None:
    """Take away advice that was not tried; words that nothing could be tried of stay."""
    for judged in everything:
        judged.findings[:] = [_without_advice(finding) for finding in judged.findings]


def _without_advice(finding: Finding) -> Finding:
    because = tuple(_without_advice(child) for child in finding.because)
    if not finding.candidates:
        return replace(finding, because=because) if because else finding
    return replace(finding, remedy="", candidates=(), because=because)


def add_remedies(
    everything: Sequence[Judged], rules: Sequence[Rule], rebuild: Rebuild, rehearse: Rehearse
) -> None:
    """Give every finding with candidates the first remedy of each way that was seen to work.

    Parameters
    ----------
    everything
        Findings of each case; replaced in place.
    rebuild
        Makes a case anew with some documents exchanged, not yet rehearsed.
    rehearse
        Rehearses many cases in one call.
    """
    searches = [search for judged in everything for search in _searches(judged)]
    trials = _Trials(rules, rebuild, rehearse, _neighbours(everything) if searches else {})
    # In rounds: the first candidates of all findings together, then the second ones of those
    # that they did not clear, and so on.
    going = [(search, candidate) for search in searches if (candidate := search.next())]
    while going:
        for first in range(0, len(going), _TRIALS_TOGETHER):
            trials.make(going[first : first + _TRIALS_TOGETHER])
        going = [(search, candidate) for search, _ in going if (candidate := search.next())]
    for search in searches:
        if search.tried_any:
            search.judged.findings[search.index] = with_remedy(search)
    agree(searches, lambda search, candidate: trials.make([(search, candidate)]))


def _searches(judged: Judged) -> Iterator[Search]:
    """Begin with the findings that have candidates, of each rule the first ones only.

    A trial judges the whole case again, so that trials for every entry of a long list take the
    square of its length.
    """
    known = {finding.key: finding for finding in flat(judged.findings)}
    begun: Counter[str] = Counter()
    for index, finding in enumerate(judged.findings):
        if finding.candidates:
            begun[finding.rule] += 1
            if begun[finding.rule] <= _FINDINGS_OF_A_RULE:
                yield Search(judged, index, known, blocking_rules={finding.rule: None})
            else:
                judged.findings[index] = _not_tried(finding)


def _not_tried(finding: Finding) -> Finding:
    said = finding.remedy
    if not said or any(said.startswith(candidate.text) for candidate in finding.candidates):
        said = "correct the other findings of this rule"
    nothing = f"changes were tried for the first {_FINDINGS_OF_A_RULE} findings of this rule only"
    return replace(finding, remedy=f"{said} ({nothing})", candidates=())


_Known = tuple[Case, dict[Any, Finding]]


def _neighbours(everything: Sequence[Judged]) -> dict[str, list[_Known]]:
    """Cases of each sequence, with what is found there before anything is changed."""
    found: dict[str, list[_Known]] = {}
    for judged in everything:
        sequence = judged.case.documents.get("sequence")
        if sequence is not None and not isinstance(judged.case, DocumentCase):
            known = {finding.key: finding for finding in flat(judged.findings)}
            found.setdefault(sequence.path, []).append((judged.case, known))
    return found


@dataclass
class _Trials:
    """Tries candidates, in the case of their finding and in those beside it.

    Attributes
    ----------
    beside
        Cases of each sequence by its path: a method that is changed is run by lines of its own.
    """

    rules: Sequence[Rule]
    rebuild: Rebuild
    rehearse: Rehearse
    beside: dict[str, list[_Known]] = field(default_factory=dict)

    def make(self, tries: Sequence[tuple[Search, Candidate]]) -> None:
        """Try one candidate of each search."""
        trials: list[tuple[Search, Candidate, Case, dict[str, Loaded]]] = []
        for search, candidate in tries:
            changed = changed_documents(candidate)
            if changed is not None:
                case = self.rebuild(search.judged.case, changed)
                trials.append((search, candidate, case, changed))
        self.rehearse([case for _, _, case, _ in trials])
        for search, candidate, case, changed in trials:
            outcome = judge_case(case, self.rules, search.rules_out(), search.blocking_rules)
            # What a trial found is all that is asked of it; its arrays may go.
            outcome.case = search.judged.case
            search.tried_any = True
            if outcome.ended_by:
                search.blocking_rules[outcome.ended_by] = None
                if outcome.ended_by != search.finding.rule:
                    search.nearest = search.nearest or (candidate, outcome.ended_by)
                else:
                    search.fell_short(candidate, outcome)
                continue
            if self._spoils_a_document(search, candidate, changed):
                continue
            if isinstance(case, BatchCase) and isinstance(search.judged.case, BatchCase):
                added = added_lines(search.judged.case, case)
                self.rehearse(added)
                found = [one for line in added for one in judge_case(line, self.rules).findings]
                outcome.findings = [*outcome.findings, *found]
            if clears(search.finding, outcome, search.known, search.floor):
                spoiled, milder = self._beside(search, changed)
                if spoiled is not None:
                    search.nearest = search.nearest or (candidate, spoiled)
                    continue
                outcome.findings = [*outcome.findings, *milder]
            else:
                search.fell_short(candidate, outcome)
            if clears(search.finding, outcome, search.known, severity("caution")):
                search.solved.add(candidate.way)
            search.outcomes.append((candidate, outcome))

    def _spoils_a_document(
        self, search: Search, candidate: Candidate, changed: dict[str, Loaded]
    ) -> bool:
        """Whether a document by itself is worse with a candidate: two settings that contradict."""
        before = {one.at.document.path: one.at.document for one in candidate.changes}
        for path, document in changed.items():
            known = {one.key for one in _of_document(search, before[path], self.rules)}
            for one in _of_document(search, document, self.rules):
                if severity(one.grade) <= search.floor and one.key not in known:
                    return True
        return False

    def _beside(
        self, search: Search, changed: dict[str, Loaded]
    ) -> tuple[str | None, list[Finding]]:
        """Rule that another case of the same sequence breaks with these documents, if any does.

        Returns
        -------
        str or None, list of Finding
            The first rule that is broken as badly as the finding, and what is milder than that.
        """
        milder: list[Finding] = []
        sequence = search.judged.case.documents.get("sequence")
        if sequence is None:
            return None, milder
        beside = [
            (case, known)
            for case, known in self.beside.get(sequence.path, ())
            if case is not search.judged.case and _concerns(case, changed)
        ][:_CASES_BESIDE]
        trials = [self.rebuild(case, changed) for case, _ in beside]
        self.rehearse(trials)
        for case, (_, known) in zip(trials, beside, strict=True):
            harm = partial(does_harm, known=known, floor=search.floor)
            outcome = judge_case(case, self.rules, harm, search.blocking_rules)
            if outcome.ended_by:
                return outcome.ended_by, milder
            found = flat(outcome.findings)
            milder += [one for one in found if does_harm(one, known, severity("caution"))]
        return None, milder


def _concerns(case: Case, changed: dict[str, Loaded]) -> bool:
    """Whether one of these documents takes part in a case; lines that move are tried as a batch."""
    if isinstance(case, LineCase) and case.sequence_document.path in changed:
        return False
    documents = [*case.documents.values(), *(case.columns if isinstance(case, RunCase) else ())]
    if isinstance(case, BatchCase):
        documents += [one for run in case.runs.values() for one in run.documents.values()]
    return any(document.path in changed for document in documents)


def _of_document(search: Search, document: Loaded, rules: Sequence[Rule]) -> list[Finding]:
    case = search.judged.case
    alone = DocumentCase(documents={document.kind: document}, lab=case.lab, as_of=case.as_of,
                         document=document)  # fmt: skip
    return flat(judge_case(alone, rules).findings)
