"""A deviation that is new or holds longer is seen when it is made.

Reason
    A deviation accepts a finding, a stop too. Whoever reviews a change has to see each one that
    comes in with it, and each whose end moves, before they look at what is left of the findings.

Unsound
    kind: method
    deviations:
      - rule: phase.two-phase-at-outlet  # <- here
        reason: two phases are studied on purpose here of the boundary
        approved_by: Head of lab
        until: 2027-01-31

Sound
    kind: method
    title: The same method, without a deviation

Remedy
    Correct what the rule finds and take the deviation out; keep it if the named person has approved
    it until that day.

Source
    Documented exceptions: common practice under good manufacturing practice, no source.
"""

from collections.abc import Iterator
from datetime import date

from methodlint.judging.ask.rule import ChangeCase, Finding, visible

SUBJECT = "change"
CLASSES = ("caution",)
NEEDS = ()


def judge(case: ChangeCase) -> Iterator[Finding]:
    """Compare each deviation with those from the same rule before; the longest counts."""
    if case.after is None:
        return
    longest: dict[str, date] = {}
    for deviation in case.before.model.deviations if case.before is not None else ():
        until = deviation.until or date.max
        longest[deviation.rule] = max(until, longest.get(deviation.rule, date.min))
    for number, deviation in enumerate(case.after.model.deviations):
        was, until = longest.get(deviation.rule), deviation.until or date.max
        if was is not None and until <= was:
            continue
        name = visible(deviation.rule)
        end = f"until {deviation.until}" if deviation.until else "without an end"
        who = visible(deviation.approved_by or "nobody")
        words = f"a new deviation from {name} {end}, approved by {who}"
        if was is not None:
            words = f"the deviation from {name} holds {end}, no longer until {was}"
        yield case.finding(
            case.at(case.after, ("deviations", number)),
            "caution",
            words,
            remedy="correct what the rule finds and take the deviation out, or have it approved",
        )
