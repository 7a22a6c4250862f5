"""Judges a method with other settings, by the rules and in the way of `check`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

from methodlint.checking.assemble import rebuild, rehearse_cases
from methodlint.checking.changed import changed_documents
from methodlint.checking.check import CheckJudgement, judged_document
from methodlint.judging.case import DocumentCase, RunCase
from methodlint.judging.deviations import set_deviations_aside
from methodlint.judging.engine import judge_case
from methodlint.judging.finding import Candidate, Change, Finding, Grade, Measure, severity
from methodlint.judging.judged import Judged
from methodlint.judging.loader import Rule
from methodlint.rehearsal.run.figures import run_figures

__all__ = ["HOLDS", "Outcome", "Reason", "State", "Trials"]

State = Literal["holds", "with care", "in the band", "fails", "not judged"]
HOLDS: tuple[State, ...] = ("holds", "with care")
"""States in which every check holds: none finds a stop or a fault, none is within its band."""

_TOGETHER = 64


@dataclass(frozen=True, slots=True)
class Reason:
    """What one rule says of a setting.

    Attributes
    ----------
    possible
        Only the unfavourable end of the band is beyond the limit.
    """

    rule: str
    grade: Grade
    message: str
    possible: bool
    found: Measure | None
    limit: Measure | None
    band: Measure | None


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a method with other settings.

    Attributes
    ----------
    state
        `fails`: a stop or a fault; `in the band`: one that only the unfavourable end of a band
        crosses; `not judged`: a check that could stop could not be made; `with care`: cautions
        that the method as it is does not have; else `holds`.
    reasons
        Why it is in this state, the worst first.
    cautions
        Rules that raise a caution which the method as it is does not have, in whichever state.
    figures
        Figures of the run by name, as in `run_figures`; empty if it could not be rehearsed.
    """

    state: State
    reasons: tuple[Reason, ...]
    cautions: tuple[str, ...] = ()
    figures: dict[str, float | None] = field(default_factory=dict, compare=False)

    @property
    def rules(self) -> tuple[str, ...]:
        """Ids of the rules behind the state, each once."""
        return tuple(dict.fromkeys(reason.rule for reason in self.reasons))


class Trials:
    """Trials of one method on one instrument.

    Parameters
    ----------
    run
        The run of the method as it is, rehearsed.
    rules
        The rules of the check.
    cards
        What was found in cards by themselves; it does not depend on a setting of the method.
    """

    def __init__(self, run: RunCase, rules: Sequence[Rule], cards: Iterable[Judged] = ()) -> None:
        self.run = run
        self._rules = rules
        self._fail = {rule.id for rule in rules if {"stop", "fault"} & set(rule.grades)}
        method = run.documents["method"]
        self._document = DocumentCase(
            documents={method.kind: method}, lab=run.lab, as_of=run.as_of, document=method
        )
        self._cards = [reason for result in cards for reason in _reasons(result)]
        own = [judge_case(case, rules) for case in (run, self._document)]
        for result in own:
            set_deviations_aside(result)
        self._known = {reason.rule for result in own for reason in _reasons(result)}
        self.own = self._outcome(own, run)

    @classmethod
    def of(cls, judgement: CheckJudgement, run: RunCase) -> Trials:
        """Trials of a run that `check` has judged, with what it found in the cards."""
        method = run.documents["method"]
        documents = [r for r in judgement.judged if isinstance(r.case, DocumentCase)]
        cards = [r for r in documents if judged_document(r.case) is not method]
        return cls(run, judgement.rules, cards)

    def judge(self, points: Iterable[tuple[Change, ...]]) -> list[Outcome]:
        """Judge the method with each set of changes; what shares a march is rehearsed together."""
        wanted = list(points)
        found: list[Outcome] = []
        for first in range(0, len(wanted), _TOGETHER):
            found += self._together(wanted[first : first + _TOGETHER])
        return found

    def _together(self, points: Sequence[tuple[Change, ...]]) -> list[Outcome]:
        cases: list[tuple[RunCase, DocumentCase] | None] = []
        for changes in points:
            changed = changed_documents(Candidate(changes, ""))
            if changed is None:
                cases.append(None)
                continue
            run, document = rebuild(self.run, changed), rebuild(self._document, changed)
            assert isinstance(run, RunCase)
            assert isinstance(document, DocumentCase)
            cases.append((run, document))
        rehearse_cases([pair[0] for pair in cases if pair is not None])
        return [self._judged(pair) for pair in cases]

    def _judged(self, pair: tuple[RunCase, DocumentCase] | None) -> Outcome:
        if pair is None:
            reason = Reason("document.value-implausible", "fault", _NO_VALUE, False, *_NO_FIGURES)
            return Outcome("fails", (reason,))
        results = [judge_case(case, self._rules) for case in pair]
        for result in results:
            set_deviations_aside(result)
        return self._outcome(results, pair[0])

    def _outcome(self, results: Sequence[Judged], run: RunCase) -> Outcome:
        done = run.rehearsal is not None and run.rehearsal.done
        figures = run_figures(run.run) if done else {}
        reasons = [*self._cards]
        for result in results:
            reasons += _reasons(result)
        reasons.sort(key=lambda reason: (severity(reason.grade), reason.possible))
        cautions = [
            reason
            for reason in reasons
            if reason.grade == "caution"
            and reason.rule not in self._known
            and not (reason.possible and reason.rule in self._fail)
        ]
        state, why = self._state(results, reasons)
        if state == "holds" and cautions:
            state, why = "with care", cautions
        rules = dict.fromkeys(reason.rule for reason in cautions)
        return Outcome(state, tuple(why), tuple(rules), figures)

    def _state(
        self, results: Sequence[Judged], reasons: Sequence[Reason]
    ) -> tuple[State, Sequence[Reason]]:
        bad = [r for r in reasons if severity(r.grade) <= severity("fault") and not r.possible]
        if bad:
            return "fails", bad
        lost = list(_lost(results))
        if lost:
            return "not judged", lost
        edge = [reason for reason in reasons if reason.possible and reason.rule in self._fail]
        return ("in the band", edge) if edge else ("holds", ())


_NO_VALUE = "a document cannot have this value"
_NO_FIGURES = (None, None, None)


def _lost(results: Iterable[Judged]) -> Iterator[Reason]:
    """Checks that can stop and could not be made."""
    for result in results:
        for item in result.not_checked:
            if item.can_stop:
                words = f"not checked: {', '.join(item.missing)} is missing"
                words += f" ({item.reason})" if item.reason else ""
                yield Reason(item.rule, "stop", words, False, *_NO_FIGURES)
        for failed in result.failed:
            yield Reason(
                failed.rule, "stop", f"the rule failed: {failed.error}", False, *_NO_FIGURES
            )


def _reasons(result: Judged) -> Iterator[Reason]:
    """What was found, causes before what they cause, each in its own class."""
    for finding in _flat(result.findings):
        grade = result.own.get((finding.key, finding.message), finding.grade)
        yield Reason(
            finding.rule,
            grade,
            finding.message,
            finding.possible,
            finding.found,
            finding.limit,
            finding.band,
        )


def _flat(findings: Iterable[Finding]) -> Iterator[Finding]:
    for finding in findings:
        yield finding
        yield from _flat(finding.because)
