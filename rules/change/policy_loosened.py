"""A lab's thresholds and classes are not made laxer unseen.

Reason
    One line of lab.yaml decides for every method of the lab how many controls are enough or whether
    a finding holds a change. A threshold that lets more pass, a class that is lowered and a folder
    of rules that is no longer named are listed before anything else, so that they are reviewed as
    what they are.

Unsound
    kind: lab
    policy: {samples_per_control: 40}  # <- here

Unsound, because the finding holds nothing any more
    kind: lab
    classes:
      - {rule: sequence.overruns-slot, to: note, reason: nobody waits}  # <- here

Sound, because the lab asks for more than before
    kind: lab
    policy: {samples_per_control: 5, boundary_margin: 20 bar}
    classes:
      - {rule: sequence.overruns-slot, to: fault, reason: the next booking is always full}

Remedy
    Take the change back, or have it approved by whoever answers for the lab's policy.

Source
    Control of changes: common practice under good manufacturing practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import looser
from methodlint.judging.ask.rule import ChangeCase, Finding

SUBJECT = "change"
CLASSES = ("caution",)
NEEDS = ()


def judge(case: ChangeCase) -> Iterator[Finding]:
    """Compare the lab's document with the one that counted before."""
    if case.after is None or case.after.kind != "lab":
        return
    for path, words in looser(case.lab_before, case.after, case.rule_grades):
        yield case.finding(
            case.at(case.after, path),
            "caution",
            f"the lab lets more pass: {words}",
            remedy="take it back, or have it approved by whoever answers for the lab's policy",
        )
