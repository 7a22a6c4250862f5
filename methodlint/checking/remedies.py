"""Tries the candidates of a remedy: changes the document, rehearses, judges again."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from methodlint.checking.changed import changed_documents
from methodlint.checking.line_cases import added_lines
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import path_text
from methodlint.judging.case import BatchCase, Case, DocumentCase
from methodlint.judging.engine import judge_case
from methodlint.judging.finding import Candidate, Finding, Remedy, severity
from methodlint.judging.judged import Judged
from methodlint.judging.loader import Rule

Rebuild = Callable[[Case, dict[str, Loaded]], Case]
Rehearse = Callable[[Sequence[Case]], None]

# Enough to fill a march, few enough to keep their arrays in memory.
_TRIALS_TOGETHER = 48

_FINDINGS_OF_A_RULE = 24

_WAYS = 2
"""How many ways of clearing a fault are offered: a choice, not a catalogue. For a caution, which
may be accepted, one way is enough."""


@dataclass
class _Search:
    """The candidates of one finding and what came of those that were tried.

    Attributes
    ----------
    judged, index
        Where the finding stands.
    known
        All findings of the case, by key.
    outcomes
        What was found with each candidate that may clear it.
    spoilers
        The finding's own rule, then those whose findings ruled candidates out: the next candidate
        mostly fails for the same reason, so these rules are asked first.
    nearest
        The first candidate that resolves the finding and raises another, and that one's rule.
    tried_any
        Whether any candidate could be tried at all.
    """

    judged: Judged
    index: int
    known: dict[Any, Finding]
    tried: int = 0
    outcomes: list[tuple[Candidate, Judged]] = field(default_factory=list)
    spoilers: dict[str, None] = field(default_factory=dict)
    nearest: tuple[Candidate, str] | None = None
    tried_any: bool = False
    solved: set[str] = field(default_factory=set)

    @property
    def finding(self) -> Finding:
        return self.judged.findings[self.index]

    @property
    def floor(self) -> int:
        """Findings milder than this are nothing against a candidate."""
        return min(severity("caution"), severity(self.finding.grade))

    def rules_out(self) -> Callable[[Finding], bool]:
        """Tell of a finding of a trial, before it is folded, that the candidate clears nothing.

        Folding only ever makes a class worse, so what rules a candidate out here does so at the
        end; a trial that has such a finding need not be judged to the end.
        """
        finding, known, floor = self.finding, self.known, self.floor
        children = _keys_beneath(finding)
        return lambda left: _stands_against(left, finding, children, known, floor)

    def next(self) -> Candidate | None:
        """Give the next candidate that is worth a trial."""
        candidates = self.finding.candidates
        ways = _WAYS if severity(self.finding.grade) < severity("caution") else 1
        while self.tried < len(candidates) and len(self.solved) < ways:
            candidate = candidates[self.tried]
            self.tried += 1
            if candidate.way not in self.solved:
                return candidate
        return None


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
    # In rounds: the first candidates of all findings together, then the second ones of those
    # that they did not clear, and so on.
    going = [(search, candidate) for search in searches if (candidate := search.next())]
    while going:
        for first in range(0, len(going), _TRIALS_TOGETHER):
            _try(going[first : first + _TRIALS_TOGETHER], rules, rebuild, rehearse)
        going = [(search, candidate) for search, _ in going if (candidate := search.next())]
    for search in searches:
        if search.tried_any:
            search.judged.findings[search.index] = _with_remedy(search)
    for _, together in itertools.groupby(searches, lambda search: id(search.judged)):
        _agree(sorted(together, key=lambda search: severity(search.finding.grade)))


def _agree(searches: Sequence[_Search]) -> None:
    """Let no two remedies of one case write different values in one place, the worst class first."""
    before: list[_Search] = []
    for search in searches:
        for other in before:
            _agree_with(search, other)
        before.append(search)


def _agree_with(search: _Search, other: _Search) -> None:
    """Offer what resolves both findings, or leave out what contradicts the worse one's remedy."""
    finding, worse = search.finding, other.finding
    if not worse.solutions or finding.solutions == worse.solutions:
        return
    free = [n for n, one in enumerate(finding.solutions) if not _contradict(one, worse.solutions)]
    if len(free) == len(finding.solutions):
        return
    for source in (other, search):
        wanted = [one.changes for one in source.finding.solutions]
        for candidate, outcome in source.outcomes:
            if candidate.changes in wanted and all(
                _clears(one.finding, outcome, one.known, severity("caution"))
                for one in (search, other)
            ):
                for one in (search, other):
                    _offer(one, candidate, outcome)
                return
    words = "; or ".join(finding.solutions[n].text for n in free)
    words = words or f"correct {worse.rule} first, then check again: both change the same setting"
    search.judged.findings[search.index] = replace(
        finding,
        remedy=_said(finding, words),
        solutions=tuple(finding.solutions[n] for n in free),
        remedies=tuple(finding.remedies[n] for n in free),
    )


def _contradict(one: Candidate, others: Sequence[Candidate]) -> bool:
    values = {
        (change.at.document.path, change.at.path): change.value
        for other in others
        for change in other.changes
    }
    return any(
        values.get((change.at.document.path, change.at.path), change.value) != change.value
        for change in one.changes
    )


def _offer(search: _Search, candidate: Candidate, outcome: Judged) -> None:
    solution, remedy = _resolved(search.finding, candidate, outcome, search.known)
    search.judged.findings[search.index] = replace(
        search.finding,
        remedy=_said(search.finding, solution.text),
        solutions=(solution,),
        remedies=(remedy,),
    )


def _said(finding: Finding, words: str) -> str:
    """A remedy in words, behind what is to be done first."""
    return f"{finding.first}; or {words}" if finding.first else words


def _resolved(
    finding: Finding, candidate: Candidate, outcome: Judged, known: dict[Any, Finding]
) -> tuple[Candidate, Remedy]:
    """A candidate that clears a finding, told with what it leaves, and as plain data."""
    left = _rest(finding, outcome, known)
    words = candidate.text + (f"; that leaves {', '.join(left)}" if left else "")
    return replace(candidate, text=words), _plain(candidate, finding, outcome, known)


def _searches(judged: Judged) -> Iterator[_Search]:
    """Begin with the findings that have candidates, of each rule the first ones only.

    A trial judges the whole case again, so that trials for every entry of a long list take the
    square of its length.
    """
    known = {finding.key: finding for finding in _flat(judged.findings)}
    begun: Counter[str] = Counter()
    for index, finding in enumerate(judged.findings):
        if finding.candidates:
            begun[finding.rule] += 1
            if begun[finding.rule] <= _FINDINGS_OF_A_RULE:
                yield _Search(judged, index, known, spoilers={finding.rule: None})
            else:
                judged.findings[index] = _not_tried(finding)


def _not_tried(finding: Finding) -> Finding:
    said = finding.remedy
    if not said or any(said.startswith(candidate.text) for candidate in finding.candidates):
        said = "correct the other findings of this rule"
    nothing = f"changes were tried for the first {_FINDINGS_OF_A_RULE} findings of this rule only"
    return replace(finding, remedy=f"{said} ({nothing})", candidates=())


def _try(
    tries: Sequence[tuple[_Search, Candidate]],
    rules: Sequence[Rule],
    rebuild: Rebuild,
    rehearse: Rehearse,
) -> None:
    """Try one candidate of each search."""
    trials: list[tuple[_Search, Candidate, Case, dict[str, Loaded]]] = []
    for search, candidate in tries:
        changed = changed_documents(candidate)
        if changed is not None:
            trials.append((search, candidate, rebuild(search.judged.case, changed), changed))
    rehearse([case for _, _, case, _ in trials])
    for search, candidate, case, changed in trials:
        outcome = judge_case(case, rules, search.rules_out(), search.spoilers)
        # What a trial found is all that is asked of it; its arrays may go.
        outcome.case = search.judged.case
        search.tried_any = True
        if outcome.ended_by:
            search.spoilers[outcome.ended_by] = None
            if search.nearest is None and outcome.ended_by != search.finding.rule:
                search.nearest = candidate, outcome.ended_by
            continue
        if _spoils_a_document(search, candidate, changed, rules):
            continue
        if isinstance(case, BatchCase) and isinstance(search.judged.case, BatchCase):
            added = added_lines(search.judged.case, case)
            rehearse(added)
            found = [one for line in added for one in judge_case(line, rules).findings]
            outcome.findings = [*outcome.findings, *found]
        search.outcomes.append((candidate, outcome))
        if _clears(search.finding, outcome, search.known, severity("caution")):
            search.solved.add(candidate.way)


def _spoils_a_document(
    search: _Search, candidate: Candidate, changed: dict[str, Loaded], rules: Sequence[Rule]
) -> bool:
    """Whether a document by itself is worse with a candidate: two settings that contradict."""
    before = {one.at.document.path: one.at.document for one in candidate.changes}
    for path, document in changed.items():
        known = {one.key for one in _of_document(search, before[path], rules)}
        for one in _of_document(search, document, rules):
            if severity(one.grade) <= search.floor and one.key not in known:
                return True
    return False


def _of_document(search: _Search, document: Loaded, rules: Sequence[Rule]) -> list[Finding]:
    case = search.judged.case
    alone = DocumentCase(documents={document.kind: document}, lab=case.lab, as_of=case.as_of,
                         document=document)  # fmt: skip
    return _flat(judge_case(alone, rules).findings)


def _with_remedy(search: _Search) -> Finding:
    finding, known = search.finding, search.known
    # Beyond clearing the finding, a good remedy leaves nothing of its consequences either.
    for floor in (severity("caution"), search.floor):
        clearing: dict[str, tuple[Candidate, Remedy]] = {}
        for candidate, outcome in search.outcomes:
            if candidate.way not in clearing and _clears(finding, outcome, known, floor):
                clearing[candidate.way] = _resolved(finding, candidate, outcome, known)
        if clearing:
            solutions, remedies = zip(*clearing.values(), strict=True)
            words = _said(finding, "; or ".join(solution.text for solution in solutions))
            return replace(finding, remedy=words, solutions=solutions, remedies=remedies)
    nothing = "no single change tried resolves it"
    if search.nearest is not None:
        nearest, raised = search.nearest
        nothing += f"; the closest is to {nearest.text}, which then raises {raised}"
    said = finding.remedy
    # Advice in words goes first; a change that was tried and failed is no advice.
    failed = not said or any(said.startswith(candidate.text) for candidate in finding.candidates)
    return replace(finding, remedy=_said(finding, nothing if failed else f"{said} ({nothing})"))


def _clears(finding: Finding, outcome: Judged, known: dict[Any, Finding], floor: int) -> bool:
    if outcome.failed or (len(outcome.not_checked) > 0 and _lost(outcome, finding)):
        return False
    children = _keys_beneath(finding)
    return not any(
        _stands_against(left, finding, children, known, floor) for left in _flat(outcome.findings)
    )


def _stands_against(
    left: Finding, finding: Finding, children: set[Any], known: dict[Any, Finding], floor: int
) -> bool:
    """Whether a finding of a trial is the same one again, what it caused, or a new harm."""
    if left.rule == finding.rule and left.at.path == finding.at.path:
        return True
    if severity(left.grade) > floor:
        return False
    if left.key in children or left.key not in known:
        return True
    before = known[left.key]
    return severity(left.grade) < severity(before.grade) or _is_deepened(left, before)


def _is_deepened(left: Finding, before: Finding) -> bool:
    """Whether a stop or fault that was there before lies further beyond its limit, by 1 % of it."""
    if severity(left.grade) > severity("fault") or not (left.found and before.found and left.limit):
        return False
    if len({left.found.unit, before.found.unit, left.limit.unit}) > 1:
        return False
    beyond = before.found.value - left.limit.value
    # A possible stop has its figure on the safe side: what counts is the way to the limit.
    up = (beyond > 0) != before.possible
    moved = left.found.value - before.found.value
    return (moved if up else -moved) > 0.01 * abs(left.limit.value)


def _keys_beneath(finding: Finding) -> set[Any]:
    return {child.key for child in _flat(finding.because)}


def _plain(
    candidate: Candidate, finding: Finding, outcome: Judged, known: dict[Any, Finding]
) -> Remedy:
    found = {one.rule for one in _flat(outcome.findings)}
    before = [finding.rule, *(child.rule for child in _flat(finding.because))]
    return Remedy(
        candidate.text,
        tuple(
            (one.at.document.path, path_text(one.at.path), one.value, one.insert)
            for one in candidate.changes
        ),
        tuple(rule for rule in dict.fromkeys(before) if rule not in found),
        tuple((one.rule, one.grade) for one in _left(finding, outcome, known)),
    )


def _rest(finding: Finding, outcome: Judged, known: dict[Any, Finding]) -> list[str]:
    """What a remedy leaves of the consequences, or brings, in words."""
    return sorted({f"{one.rule} ({one.grade})" for one in _left(finding, outcome, known)})


def _left(finding: Finding, outcome: Judged, known: dict[Any, Finding]) -> list[Finding]:
    children = _keys_beneath(finding)
    return [
        one
        for one in _flat(outcome.findings)
        if one.grade != "note"
        and (
            one.key in children
            or one.key not in known
            or severity(one.grade) < severity(known[one.key].grade)
        )
    ]


def _lost(outcome: Judged, finding: Finding) -> bool:
    return any(item.rule == finding.rule for item in outcome.not_checked)


def _flat(findings: Sequence[Finding]) -> list[Finding]:
    return [f for finding in findings for f in (finding, *_flat(finding.because))]
