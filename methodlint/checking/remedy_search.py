"""One finding's candidates, what came of those that were tried, and what of it is a remedy."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from methodlint.documents.quantities.format import number
from methodlint.documents.text.nodes import Scalar
from methodlint.documents.text.places import Place, path_text
from methodlint.judging.finding import Candidate, Change, Finding, Remedy, severity
from methodlint.judging.judged import Judged

__all__ = ["Search", "clears", "does_harm", "flat", "offer", "said", "with_remedy"]

_WAYS = 2
"""How many ways of clearing a fault are offered: a choice, not a catalogue. For a caution, which
may be accepted, one way is enough."""


@dataclass
class Search:
    """The candidates of one finding and what came of those that were tried.

    Attributes
    ----------
    judged, index
        Where the finding stands.
    known
        All findings of the case, by key.
    outcomes
        What was found with each candidate that may clear it.
    blocking_rules
        The finding's own rule, then those whose findings ruled candidates out: the next candidate
        mostly fails for the same reason, so these rules are asked first.
    nearest
        The first candidate that resolves the finding and raises another, and that one's rule.
    reach
        The candidate that leaves the finding's figure closest to its limit, and what it leaves.
    unsure
        The first candidate with which the rule can no longer be checked, and what it then lacks.
    tried_any
        Whether any candidate could be tried at all.
    """

    judged: Judged
    index: int
    known: dict[Any, Finding]
    tried: int = 0
    outcomes: list[tuple[Candidate, Judged]] = field(default_factory=list)
    blocking_rules: dict[str, None] = field(default_factory=dict)
    nearest: tuple[Candidate, str] | None = None
    reach: tuple[Candidate, Finding] | None = None
    unsure: tuple[Candidate, str] | None = None
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
        return lambda left: _is_regression(left, finding, children, known, floor)

    def fell_short(self, candidate: Candidate, outcome: Judged) -> None:
        """Keep what a candidate came to that clears nothing, if it is the closest so far."""
        finding, left = self.finding, flat(outcome.findings)
        own = [one for one in left if (one.rule, one.at.path) == (finding.rule, finding.at.path)]
        if own:
            best = self.reach[1] if self.reach is not None else finding
            if _is_closer(own[0], best):
                self.reach = candidate, own[0]
            return
        raised = [one for one in left if does_harm(one, self.known, self.floor)]
        lost = [item for item in outcome.not_checked if item.rule == finding.rule]
        if lost and not raised and self.unsure is None:
            self.unsure = candidate, ", ".join(lost[0].missing)
        if raised and self.nearest is None:
            self.nearest = candidate, min(raised, key=lambda one: severity(one.grade)).rule

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


def with_remedy(search: Search) -> Finding:
    """The finding of a search with what resolves it, or with what was nearest."""
    finding, known = search.finding, search.known
    # Beyond clearing the finding, a good remedy leaves nothing of its consequences either.
    for floor in (severity("caution"), search.floor):
        clearing: dict[str, tuple[Candidate, Remedy]] = {}
        for candidate, outcome in search.outcomes:
            if candidate.way not in clearing and clears(finding, outcome, known, floor):
                clearing[candidate.way] = _resolved(finding, candidate, outcome, known)
        if clearing:
            solutions, remedies = zip(*clearing.values(), strict=True)
            words = said(finding, "; or ".join(solution.text for solution in solutions))
            return replace(finding, remedy=words, solutions=solutions, remedies=remedies)
    nothing = "no single change tried resolves it"
    if search.nearest is not None:
        nearest, raised = search.nearest
        nothing += f"; the closest is to {nearest.text}, which then raises {raised}"
    elif search.reach is not None:
        closest, rest = search.reach
        nothing += f"; the closest is to {closest.text}, which leaves {_against(rest)}"
    elif search.unsure is not None:
        closest, lacking = search.unsure
        nothing += f"; the closest is to {closest.text}, which is not checked without {lacking}"
    advice = finding.remedy
    # Advice in words goes first; a change that was tried and failed is no advice.
    failed = not advice or any(advice.startswith(one.text) for one in finding.candidates)
    return replace(finding, remedy=said(finding, nothing if failed else f"{advice} ({nothing})"))


def _is_closer(left: Finding, best: Finding) -> bool:
    """Whether a finding is milder than another of its rule, or less far from its limit."""
    if severity(left.grade) != severity(best.grade):
        return severity(left.grade) > severity(best.grade)
    gaps = [
        abs(one.found.value - one.limit.value)
        for one in (left, best)
        if one.found is not None and one.limit is not None and one.found.unit == one.limit.unit
    ]
    return len(gaps) == 2 and left.possible == best.possible and gaps[0] < gaps[1]


def _against(left: Finding) -> str:
    """What is left of a finding: `152 bar against 144 bar`, or its class."""
    measures = [one for one in (left.found, left.limit) if one]
    figures = [f"{number(one.value, 3)} {one.unit}".strip() for one in measures]
    return f"{' against '.join(figures)} ({left.grade})" if figures else f"a {left.grade}"


def clears(finding: Finding, outcome: Judged, known: dict[Any, Finding], floor: int) -> bool:
    """Whether a trial leaves nothing of a finding and does no harm of this class or worse."""
    if outcome.failed or (len(outcome.not_checked) > 0 and _lost(outcome, finding)):
        return False
    children = _keys_beneath(finding)
    return not any(
        _is_regression(left, finding, children, known, floor) for left in flat(outcome.findings)
    )


def _is_regression(
    left: Finding, finding: Finding, children: set[Any], known: dict[Any, Finding], floor: int
) -> bool:
    """Whether a finding of a trial is the same one again, what it caused, or a new harm."""
    if left.rule == finding.rule and left.at.path == finding.at.path:
        return True
    if severity(left.grade) <= floor and left.key in children:
        return True
    return does_harm(left, known, floor)


def does_harm(left: Finding, known: dict[Any, Finding], floor: int) -> bool:
    """Whether a finding of a trial is new, of a worse class or further beyond its limit.

    Parameters
    ----------
    left
        Found with a change.
    known
        Findings before it, by key.
    floor
        Order of the mildest class that counts.
    """
    if severity(left.grade) > floor:
        return False
    before = known.get(left.key)
    if before is None:
        return True
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
    return {child.key for child in flat(finding.because)}


def _plain(
    candidate: Candidate, finding: Finding, outcome: Judged, known: dict[Any, Finding]
) -> Remedy:
    found = {one.rule for one in flat(outcome.findings)}
    before = [finding.rule, *(child.rule for child in flat(finding.because))]
    return Remedy(
        candidate.text,
        tuple(
            (one.at.document.path, path_text(one.at.path), one.value, one.insert)
            for one in candidate.changes
        ),
        tuple(rule for rule in dict.fromkeys(before) if rule not in found),
        tuple((one.rule, one.grade) for one in _left(finding, outcome, known)),
        tuple(_place(one) for one in candidate.changes),
        candidate.at_bench,
    )


def _place(change: Change) -> Place | None:
    """Where a single value is written that a change replaces; None if it is not such a one."""
    document = change.at.document
    node = document.read.node(change.at.path)
    alone = isinstance(node, Scalar) and not node.place.file and not document.made_from
    replaced = not change.insert and change.value is not None
    return node.place if node is not None and alone and replaced else None


def _rest(finding: Finding, outcome: Judged, known: dict[Any, Finding]) -> list[str]:
    """What a remedy leaves of the consequences, or brings, in words."""
    return sorted({f"{one.rule} ({one.grade})" for one in _left(finding, outcome, known)})


def _left(finding: Finding, outcome: Judged, known: dict[Any, Finding]) -> list[Finding]:
    children = _keys_beneath(finding)
    return [
        one
        for one in flat(outcome.findings)
        if one.grade != "note"
        and (
            one.key in children
            or one.key not in known
            or severity(one.grade) < severity(known[one.key].grade)
        )
    ]


def _lost(outcome: Judged, finding: Finding) -> bool:
    return any(item.rule == finding.rule for item in outcome.not_checked)


def said(finding: Finding, words: str) -> str:
    """A remedy in words, behind what is to be done first."""
    return f"{finding.first}; or {words}" if finding.first else words


def _resolved(
    finding: Finding, candidate: Candidate, outcome: Judged, known: dict[Any, Finding]
) -> tuple[Candidate, Remedy]:
    """A candidate that clears a finding, told with what it leaves, and as plain data."""
    left = _rest(finding, outcome, known)
    words = candidate.text + (f"; that leaves {', '.join(left)}" if left else "")
    return replace(candidate, text=words), _plain(candidate, finding, outcome, known)


def offer(search: Search, candidate: Candidate, outcome: Judged) -> None:
    """Give the finding of a search one remedy, in the place of those that it has."""
    solution, remedy = _resolved(search.finding, candidate, outcome, search.known)
    search.judged.findings[search.index] = replace(
        search.finding,
        remedy=said(search.finding, solution.text),
        solutions=(solution,),
        remedies=(remedy,),
    )


def flat(findings: Sequence[Finding]) -> list[Finding]:
    """Findings with those beneath them."""
    return [f for finding in findings for f in (finding, *flat(finding.because))]
