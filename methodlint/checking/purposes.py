"""Which rules keep silent because nobody has said what the results are for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from methodlint.judging.case import BatchCase, Case, DocumentCase
from methodlint.judging.engine import judge_case
from methodlint.judging.finding import Grade, worst
from methodlint.judging.judged import Judged
from methodlint.judging.loader import Rule, built_in_rules

_RULE = "document.purpose-missing"


Waiting = dict[str, dict[str, Grade]]
"""The worst class by rule, by tag."""


def waiting_for_purpose(judged: Iterable[Judged], rules: Sequence[Rule]) -> list[Waiting]:
    """Judge what carries no purpose tag as if it carried each of them.

    Only rules that declare `TAGS` are asked, and of those only what they raise with a tag and
    not without is told.

    Returns
    -------
    list
        For each case, the worst class by rule, by tag; empty where nothing waits.
    """
    if _RULE not in {rule.id for rule in rules}:
        return [{} for _ in judged]
    everything = {rule.id: rule for rule in (*built_in_rules(), *rules) if rule.tags}
    return [_waiting(result, everything) for result in judged]


def _waiting(result: Judged, everything: dict[str, Rule]) -> Waiting:
    case = result.case
    if isinstance(case, DocumentCase) or _known(case):
        return {}
    found: Waiting = {}
    for tag in sorted({tag for rule in everything.values() for tag in rule.tags}):
        asked = [rule for rule in everything.values() if tag in rule.tags]
        case.assumed_purpose = tag
        try:
            outcome = judge_case(case, asked)
        finally:
            case.assumed_purpose = None
        reported = {finding.rule for finding in result.findings}
        for finding in outcome.findings:
            if finding.rule not in reported:
                by_rule = found.setdefault(tag, {})
                known = by_rule.get(finding.rule, finding.grade)
                by_rule[finding.rule] = worst(known, finding.grade)
    return found


def _known(case: Case) -> bool:
    """Whether a purpose is known, in a mixed batch that of every line that injects."""
    if case.purpose is not None or not isinstance(case, BatchCase):
        return case.purpose is not None
    return all(case.purpose_of(line) is not None for line in case.batch.lines if line.injects)


def joined(waiting: Iterable[tuple[str, Waiting]]) -> dict[str, Waiting]:
    """Join what waits in several cases by the path of the document that lacks the tag."""
    found: dict[str, Waiting] = {}
    for path, by_tag in waiting:
        for tag, by_rule in by_tag.items():
            known = found.setdefault(path, {}).setdefault(tag, {})
            for rule, grade in by_rule.items():
                known[rule] = worst(known.get(rule, grade), grade)
    return found
