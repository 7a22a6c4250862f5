"""Applies rules to cases, changes classes as the lab says, folds consequences beneath causes."""

from __future__ import annotations

import traceback
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import replace
from typing import cast

from methodlint.documents.memo import memoize_last
from methodlint.fluids.validity import OutOfRange
from methodlint.judging.batch_parts import parts_of
from methodlint.judging.calendar_case import CalendarCase
from methodlint.judging.case import BatchCase, Case, DocumentCase, RunCase
from methodlint.judging.change_case import ChangeCase
from methodlint.judging.finding import At, Finding, NotChecked, ask_for, severity, worst
from methodlint.judging.history_case import HistoryCase
from methodlint.judging.judged import Judged
from methodlint.judging.lab_policy import as_the_lab_says
from methodlint.judging.line_case import LineCase
from methodlint.judging.loader import Rule
from methodlint.judging.unjudged import RuleFailed
from methodlint.rehearsal.plan.missing import Missing


def subject_of(case: Case) -> str:
    """Name the kind of subject that a case is; a line is judged by some of the rules of runs."""
    if isinstance(case, ChangeCase):
        return "change"
    if isinstance(case, CalendarCase):
        return "calendar"
    if isinstance(case, HistoryCase):
        return "history"
    if isinstance(case, LineCase):
        return "line"
    if isinstance(case, RunCase):
        return "run"
    return "batch" if isinstance(case, BatchCase) else "document"


def judge_case(
    case: Case,
    rules: Sequence[Rule],
    ends: Callable[[Finding], bool] | None = None,
    first: Collection[str] = (),
) -> Judged:
    """Apply every rule that judges this kind of subject.

    A rule that raises is reported as failed and the others go on.

    Parameters
    ----------
    ends
        Says of a finding, its class as the lab wants it, that nothing else need be known.
    first
        Rules that are asked before the others: those likely to end it.
    """
    judged = Judged(case)
    subject = subject_of(case)
    name = cast(
        DocumentCase | RunCase | BatchCase | CalendarCase | HistoryCase | ChangeCase, case
    ).name
    # Nothing of the case changes while it is judged.
    known: dict[str | tuple[str, ...], list[Missing] | None] = {}
    asked = _by_subject(rules).get(subject, [])
    if first:
        order = {name: number for number, name in enumerate(first)}
        asked = sorted(asked, key=lambda rule: order.get(rule.id, len(order)))
    for rule in asked:
        case.rule_id = rule.id
        before = len(judged.findings)
        try:
            parts = parts_of(case, rule.parts) if isinstance(case, BatchCase) else [case]
            parts = [part for part in parts if rule.applies(part)]
            if not parts:
                judged.applied.add(rule.id)
                continue
            _apply(rule, case, parts, judged, name, case.lacking(rule.needs, known))
        except (Exception, SystemExit) as error:  # its own mistake must not cost the others
            judged.failed.append(
                RuleFailed(rule.id, name, f"{type(error).__name__}: {error}", _trace())
            )
        if ends is not None and any(
            ends(as_the_lab_says(finding, case.lab)) for finding in judged.findings[before:]
        ):
            judged.ended_by = rule.id
            break
    # Policy comes first: a finding that folds beneath another is moved as if it stood alone.
    judged.findings = [as_the_lab_says(finding, case.lab) for finding in judged.findings]
    judged.own = {(finding.key, finding.message): finding.grade for finding in judged.findings}
    judged.findings = fold(judged.findings, rules)
    return judged


@memoize_last
def _by_subject(rules: Sequence[Rule]) -> dict[str, list[Rule]]:
    sorted_out: dict[str, list[Rule]] = {}
    for rule in rules:
        sorted_out.setdefault(rule.subject, []).append(rule)
        if rule.lines:
            sorted_out.setdefault("line", []).append(rule)
    return sorted_out


def _trace() -> str:
    return traceback.format_exc()


def _apply(
    rule: Rule,
    case: Case,
    parts: Sequence[Case],
    judged: Judged,
    name: str,
    missing: list[Missing] | None,
) -> None:
    if missing is None:
        return
    if missing:
        first = missing[0].document or next(iter(case.documents.values()))
        judged.not_checked.append(
            NotChecked(
                rule=rule.id,
                at=At(first, ()),
                missing=tuple(dict.fromkeys(item.where for item in missing)),
                reason="; ".join(dict.fromkeys(item.reason for item in missing if item.reason)),
                can_stop="stop" in rule.grades,
                subject=name,
                asks=tuple(
                    dict.fromkeys(ask_for(item.where, item.document or first) for item in missing)
                ),
            )
        )
        return
    judged.checked += 1
    judged.applied.add(rule.id)
    judged.made.add(rule.id)
    try:
        for part in parts:
            _collect(rule, part, judged, name)
    except OutOfRange as beyond:  # a figure of the documents that no model covers
        judged.not_checked.append(
            NotChecked(
                rule=rule.id,
                at=At(next(iter(case.documents.values())), ()),
                missing=(f"a {beyond.quantity} that the model covers",),
                reason=str(beyond),
                can_stop="stop" in rule.grades,
                subject=name,
            )
        )


def _collect(rule: Rule, case: Case, judged: Judged, name: str) -> None:
    for said in rule.judge(case):
        if isinstance(said, NotChecked):
            judged.not_checked.append(replace(said, can_stop="stop" in rule.grades, subject=name))
        else:
            if said.grade not in rule.grades:
                raise ValueError(f"class '{said.grade}' is not among the rule's {rule.grades}")
            judged.findings.append(replace(said, rule=rule.id, subject=name))


def fold(findings: Iterable[Finding], rules: Sequence[Rule]) -> list[Finding]:
    """Put findings beneath the finding that causes them; the parent takes the worst class.

    Every finding stands in exactly one place: beneath the first of its causes, worst first, or
    on its own. Rules that name each other do not lose each other.
    """
    everything = sorted(findings, key=_order)
    if len(everything) < 2:
        return everything
    of_rule: dict[str, list[int]] = {}
    for index, finding in enumerate(everything):
        of_rule.setdefault(finding.rule, []).append(index)
    causes: dict[str, list[int]] = {}
    for rule in rules:
        for caused in rule.causes if rule.id in of_rule else ():
            causes.setdefault(caused, []).extend(of_rule[rule.id])
    for indices in causes.values():
        indices.sort()
    parent: dict[int, int] = {}
    for index, child in enumerate(everything):
        for other in causes.get(child.rule, ()):
            if (
                other != index
                and _share_a_moment(everything[other], child)
                and not _is_beneath(other, index, parent)
            ):
                parent[index] = other
                break
    children: dict[int, list[int]] = {}
    for index, above in parent.items():
        children.setdefault(above, []).append(index)
    return [
        _with_children(index, everything, children)
        for index in range(len(everything))
        if index not in parent
    ]


def _is_beneath(index: int, top: int, parent: dict[int, int]) -> bool:
    while index in parent:
        index = parent[index]
        if index == top:
            return True
    return False


def _with_children(
    index: int, everything: list[Finding], children: dict[int, list[int]]
) -> Finding:
    finding = everything[index]
    below = tuple(_with_children(child, everything, children) for child in children.get(index, ()))
    grade = finding.grade
    for child in below:
        grade = worst(grade, child.grade)
    return replace(finding, grade=grade, because=below) if below else finding


def _share_a_moment(first: Finding, second: Finding) -> bool:
    if first.when is None or second.when is None:
        return True
    return first.when.overlaps(second.when)


def _order(finding: Finding) -> tuple[int, str, str]:
    return severity(finding.grade), finding.rule, str(finding.at.path)
