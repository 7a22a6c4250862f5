"""Which rules keep silent because nobody has said what the results are for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from methodlint.judging.case import BatchCase, DocumentCase
from methodlint.judging.engine import Judged, judge_case
from methodlint.judging.finding import Grade, worst
from methodlint.judging.loader import Rule, built_in_rules

_RULE = "document.purpose-missing"


def waiting_for_purpose(
    judged: Iterable[Judged], rules: Sequence[Rule]
) -> dict[str, dict[str, dict[str, Grade]]]:
    """Judge what carries no purpose tag as if it carried each of them.

    Only rules that declare `TAGS` are asked, and of those only what they raise with a tag and
    not without is told.

    Returns
    -------
    dict
        The worst class by rule, by tag, by the path of the document that lacks the tag.
    """
    if all(rule.id != _RULE for rule in rules):
        return {}
    everything = {rule.id: rule for rule in (*built_in_rules(), *rules) if rule.tags}
    tags = sorted({tag for rule in everything.values() for tag in rule.tags})
    found: dict[str, dict[str, dict[str, Grade]]] = {}
    for result in judged:
        case = result.case
        if isinstance(case, DocumentCase) or case.purpose is not None:
            continue
        kind = "sequence" if isinstance(case, BatchCase) else "method"
        where = found.setdefault(case.documents[kind].path, {})
        for tag in tags:
            asked = [rule for rule in everything.values() if tag in rule.tags]
            case.assumed_purpose = tag
            try:
                outcome = judge_case(case, asked)
            finally:
                case.assumed_purpose = None
            loud = {finding.rule for finding in result.findings}
            for finding in outcome.findings:
                if finding.rule not in loud:
                    by_rule = where.setdefault(tag, {})
                    known = by_rule.get(finding.rule, finding.grade)
                    by_rule[finding.rule] = worst(known, finding.grade)
    return found
