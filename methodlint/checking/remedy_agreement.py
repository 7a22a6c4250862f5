"""Remedies on one screen: two that set the same figure, or put in the same line, do it alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from methodlint.checking.remedy_search import Search, clears, offer, said
from methodlint.judging.finding import Candidate, severity
from methodlint.judging.judged import Judged

__all__ = ["agree"]

Attempt = Callable[[Search, Candidate], None]


def agree(searches: Sequence[Search], attempt: Attempt) -> None:
    """Let no two remedies write different values in one place, the worst finding first.

    Parameters
    ----------
    searches
        Of all cases of one check, with their remedies.
    attempt
        Tries a candidate in the case of a search and puts what came of it among the outcomes.
    """
    settled: dict[Any, list[Search]] = {}
    for search in sorted(searches, key=lambda search: severity(search.finding.grade)):
        places = [place for place, _ in _values(search.finding.solutions)]
        others = {id(other): other for place in places for other in settled.get(place, ())}
        for other in others.values():
            _agree_with(search, other, attempt)
        for one in (search, *others.values()):
            for place, _ in _values(one.finding.solutions):
                held = settled.setdefault(place, [])
                if not any(other is one for other in held):
                    held.append(one)


def _agree_with(search: Search, other: Search, attempt: Attempt) -> None:
    """Offer what resolves both findings, or leave out what contradicts the worse one's remedy."""
    finding, worse = search.finding, other.finding
    if not worse.solutions or finding.solutions == worse.solutions:
        return
    free = [n for n, one in enumerate(finding.solutions) if not _contradict(one, worse.solutions)]
    if len(free) == len(finding.solutions):
        return
    minor = severity(finding.grade) > severity("caution")
    for source in (other,) if minor else (other, search):  # a note has no say in a stop's remedy
        wanted = [one.changes for one in source.finding.solutions]
        for candidate in [one for one, _ in source.outcomes if one.changes in wanted]:
            found = [(one, _outcome(one, candidate, attempt)) for one in (search, other)]
            both = [(one, outcome) for one, outcome in found if outcome is not None]
            if len(both) == 2:
                for one, outcome in both:
                    offer(one, candidate, outcome)
                return
    words = "; or ".join(finding.solutions[n].text for n in free)
    words = words or f"correct {worse.rule} first, then check again: both change the same place"
    search.judged.findings[search.index] = replace(
        finding,
        remedy=said(finding, words),
        solutions=tuple(finding.solutions[n] for n in free),
        remedies=tuple(finding.remedies[n] for n in free),
    )


def _outcome(search: Search, candidate: Candidate, attempt: Attempt) -> Judged | None:
    """What comes of a candidate in the case of a search, if it clears the finding there."""
    for again in (False, True):
        if again:
            attempt(search, candidate)
        for one, outcome in search.outcomes:
            if one.changes == candidate.changes:
                good = clears(search.finding, outcome, search.known, severity("caution"))
                return outcome if good else None
    return None


def _values(candidates: Sequence[Candidate]) -> Iterator[tuple[Any, Any]]:
    """Place and value of every change; a line that is put in has no value yet."""
    for candidate in candidates:
        for change in candidate.changes:
            yield (change.at.document.path, change.at.path, change.insert), change.value


def _contradict(one: Candidate, others: Sequence[Candidate]) -> bool:
    values = dict(_values(others))
    return any(values.get(place, value) != value for place, value in _values([one]))
