"""Rehearses a run at all corners that the accuracies of its parts span, and says what fails where.

Robustness in the sense of ICH Q2(R2) and Q14: deliberate changes of what may vary in use. Of six
parts there are 64 corners, all rehearsed in one call. The spans of an oven, a regulator or a pump
are limits of what is set: a rule that holds a setting itself against one is not asked about a
setting that nobody makes.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from methodlint.checking.report import Report
from methodlint.judging.case import RunCase
from methodlint.judging.finding import Change, Measure
from methodlint.judging.loader import Rule, built_in_rules
from methodlint.window.accuracies import Accuracy, accuracies_of
from methodlint.window.trials import Outcome, Reason, State, Trials

__all__ = ["CornerFailure", "Corners", "corners_of", "corners_of_report"]

Signs = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class CornerFailure:
    """One rule that objects at corners and not at the settings themselves.

    Attributes
    ----------
    reason
        What it says at the worst corner.
    corners
        At how many of all it objects.
    at
        Parts that lie at one end wherever it objects: name and `low` or `high`.
    """

    reason: Reason
    corners: int
    at: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Corners:
    """What became of the corners of one run.

    Attributes
    ----------
    accuracies
        What was spanned.
    count
        Number of corners.
    own
        State at the settings themselves.
    failures
        What objects at corners only, the worst first.
    not_judged
        Number of corners at which a check that can stop could not be made.
    """

    run: RunCase
    accuracies: tuple[Accuracy, ...]
    count: int
    own: State
    failures: tuple[CornerFailure, ...]
    not_judged: int

    @property
    def failing(self) -> tuple[CornerFailure, ...]:
        """What fails for certain at a corner, bands left aside."""
        return tuple(one for one in self.failures if not one.reason.possible)


def corners_of(run: RunCase, rules: Sequence[Rule]) -> Corners | None:
    """Rehearse and judge a run at its corners; None if it could not be rehearsed at all."""
    if run.rehearsal is None or not run.rehearsal.done:
        return None
    accuracies = tuple(accuracies_of(run))
    trials = Trials(run, rules)
    corners = list(itertools.product((-1, 1), repeat=len(accuracies)))
    outcomes = trials.judge(_changes(accuracies, signs) for signs in corners)
    found = list(zip(corners, outcomes, strict=True))
    return Corners(
        run,
        accuracies,
        len(corners),
        trials.own.state,
        tuple(_failures(accuracies, trials.own, found)),
        sum(outcome.state == "not judged" for outcome in outcomes),
    )


def corners_of_report(report: Report) -> list[Corners]:
    """Rehearse all runs of a report at their corners; those that were not rehearsed are left out."""
    rules = [*built_in_rules(), *report.rules_of_lab]
    return [found for run in report.runs if (found := corners_of(run, rules)) is not None]


def _changes(accuracies: Iterable[Accuracy], signs: Signs) -> tuple[Change, ...]:
    return tuple(
        change
        for accuracy, sign in zip(accuracies, signs, strict=True)
        for change in (accuracy.low if sign < 0 else accuracy.high)
    )


def _failures(
    accuracies: Sequence[Accuracy], own: Outcome, found: Sequence[tuple[Signs, Outcome]]
) -> list[CornerFailure]:
    known = {(reason.rule, reason.possible) for reason in own.reasons}
    ends = [end for accuracy in accuracies for end in accuracy.ends]
    by_rule: dict[str, list[tuple[Signs, Reason]]] = {}
    for signs, outcome in found:
        if outcome.state not in ("fails", "in the band"):
            continue
        for reason in outcome.reasons:
            if (reason.rule, reason.possible) not in known and not _of_a_setting(reason, ends):
                by_rule.setdefault(reason.rule, []).append((signs, reason))
    failures = []
    for said in by_rule.values():
        where = {one for one, _ in said}
        at = tuple(
            (accuracy.name, "low" if sides == {-1} else "high")
            for n, accuracy in enumerate(accuracies)
            if len(sides := {one[n] for one in where}) == 1
        )
        worst = min((reason for _, reason in said), key=_worse_first)
        failures.append(CornerFailure(worst, len(where), at))
    return sorted(failures, key=lambda one: (_worse_first(one.reason), -one.corners))


def _of_a_setting(reason: Reason, ends: Iterable[Measure]) -> bool:
    """Whether a rule has judged the moved setting itself, not what follows from it."""
    found = reason.found
    if found is None or reason.band is not None:
        return False
    return any(
        end.unit == found.unit and math.isclose(end.value, found.value, rel_tol=1e-6)
        for end in ends
    )


def _worse_first(reason: Reason) -> tuple[bool, str, float, str]:
    beyond = 0.0
    if reason.found is not None and reason.limit is not None:
        beyond = -abs(reason.found.value - reason.limit.value)
    return reason.possible, reason.grade, beyond, reason.rule
