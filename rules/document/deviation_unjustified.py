"""A deviation names an existing rule, its reason, who approved it and until when.

Reason
    A deviation accepts a finding, and it is read by people who were not there. Without reason,
    name and end date it stays for ever and protects nobody; without effect it hides that the
    method has changed. It is in force until its last day, by the date of the check: --as-of, or
    the start of the sequence. What makes a document mean something else, such as an unknown key,
    is corrected and never accepted.

Unsound
    kind: method
    deviations:
      - {rule: phase.two-phase-at-outlet, approved_by: Head of lab, until: 2027-01-31}  # <- here

Unsound, because there is no rule of that name
    kind: method
    deviations:
      - {rule: phase.two-phases, reason: seen sound, approved_by: Head, until: 2027-01-31}  # <- here

Sound
    kind: method
    deviations:
      - rule: phase.two-phase-at-outlet
        reason: two phases are studied on purpose here of the boundary
        approved_by: Head of lab
        until: 2027-01-31

Remedy
    Write `reason:`, `approved_by:` and `until:`; renew or take out what has expired; take out what
    no longer accepts anything.

Source
    Documented exceptions: common practice under good manufacturing practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import Deviation
from methodlint.judging.ask.rule import (
    DocumentCase,
    Finding,
    NotChecked,
    guards_meaning,
    has_letters,
    nearest,
    visible,
)

SUBJECT = "document"
CLASSES = ("fault", "caution")
NEEDS = ()

_SUCH_AS = {
    "reason": "why it may be so here",
    "approved_by": "head of the laboratory",
    "until": "its last day, such as 2026-12-31",
}


def judge(case: DocumentCase) -> Iterator[Finding | NotChecked]:
    """Look at each deviation by itself."""
    for number, deviation in enumerate(case.document.model.deviations):
        at = case.at(case.document, ("deviations", number))
        name = visible(deviation.rule)
        wrong, remedy = _wrong(case, deviation)
        if wrong:
            yield case.finding(
                at, "fault", f"the deviation from {name} {' and '.join(wrong)}", remedy=remedy
            )
        elif number in case.idle:
            yield case.finding(
                at,
                "caution",
                f"the deviation from {name} accepts nothing: the rule was applied and is silent, "
                "or what it finds does not concern this document",
                remedy="take the deviation out, or write it in the method or sequence concerned",
            )
        elif deviation.until is not None and case.as_of is None:
            reason = f"the deviation from {name} ends on {deviation.until} and is in force only "
            reason += "where a date shows that it has not ended"
            yield case.not_checked(at, "a day to judge it by (--as-of DATE, or today)", reason)


def _wrong(case: DocumentCase, deviation: Deviation) -> tuple[list[str], str]:
    lacking = [
        key
        for key, value in (
            ("reason", has_letters(deviation.reason or "")),
            ("approved_by", has_letters(deviation.approved_by or "")),
            ("until", deviation.until),
        )
        if not value
    ]
    if deviation.rule not in case.rule_grades and not _rules_of_the_lab(case):
        near = [rule for rule, _ in nearest(deviation.rule, sorted(case.rule_grades), limit=3)]
        said = f"did you mean {' or '.join(near)}?" if near else "use the id of the finding"
        return ["names a rule that does not exist"], said
    grades = case.rule_grades.get(deviation.rule, ())
    if grades and all(guards_meaning(deviation.rule, grade) for grade in grades):
        return ["cannot accept what makes the document mean something else"], "correct it there"
    wrong = [f"lacks {', '.join(lacking)}"] if lacking else []
    remedy = f"write {', '.join(f'{key}: {_SUCH_AS[key]}' for key in lacking)}"
    until = deviation.until
    if until is not None and case.as_of is not None and until < case.as_of:
        wrong.append(f"expired on {until}, before {case.as_of}")
        remedy = "have it renewed, or take it out"
    return wrong, remedy


def _rules_of_the_lab(case: DocumentCase) -> bool:
    """A lab with rules of its own that are not applied may name one of them."""
    named = getattr(case.lab.model, "rule_folders", ()) if case.lab is not None else ()
    loaded = [folder for folder in case.rule_folders if folder.allowed and not folder.problems]
    return len(loaded) < len(named)
