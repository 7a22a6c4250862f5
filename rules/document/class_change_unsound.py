"""A class that the lab's policy moves belongs to a rule that exists and is no stop.

Reason
    A lab may take a rule more or less seriously than this tool does, with a reason. What can hurt
    someone or break hardware is not a matter of policy: a stop keeps its class whatever lab.yaml
    says, and an attempt to lower one has to be seen. So does a fault of a document's own text, such
    as an unknown key: the text means nothing else for it. A misspelt id moves nothing.

Unsound
    kind: lab
    classes:
      - {rule: phase.two-phases, to: caution, reason: we study the boundary}  # <- here

Unsound, because a stop is never lowered
    kind: lab
    classes:
      - {rule: safety.monitor-wrong-kind, to: caution, reason: the room is large}  # <- here

Unsound, because an unknown key is not read, whatever its class
    kind: lab
    classes:
      - {rule: document.unknown-key, to: note, reason: our old cards have some}  # <- here

Sound
    kind: lab
    classes:
      - {rule: sequence.overruns-slot, to: fault, reason: the next booking is always full}

Remedy
    Correct the id, or take the line out. A stop in one document is accepted by a deviation
    there, with reason, approver and end date.

Source
    Common practice, no source.
"""

from collections.abc import Iterator, Sequence

from methodlint.judging.ask.document import Lab
from methodlint.judging.ask.rule import (
    DocumentCase,
    Finding,
    Grade,
    guards_meaning,
    nearest,
    severity,
    visible,
)

SUBJECT = "document"
CLASSES = ("fault", "caution")
NEEDS = ()

_REMEDY = {
    "stop": "take the line out; a deviation with reason, approver and end date accepts one stop",
    "fault": "take the line out, and correct the documents",
}


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Look at each change by itself, then for rules that are moved twice."""
    lab = case.document.model
    if not isinstance(lab, Lab):
        return
    seen: dict[str, int] = {}
    for number, change in enumerate(lab.classes):
        at = case.at(case.document, ("classes", number))
        name = visible(change.rule)
        grades = case.rule_grades.get(change.rule)
        if change.rule in seen:
            yield case.finding(
                at,
                "fault",
                f"{name} is moved twice, to {lab.classes[seen[change.rule]].to} and to "
                f"{change.to}; the first one counts",
                remedy="take one of them out",
                also=(case.at(case.document, ("classes", seen[change.rule])),),
            )
            continue
        seen[change.rule] = number
        if grades is None:
            near = [rule for rule, _ in nearest(change.rule, sorted(case.rule_grades), limit=3)]
            # A rule of the lab's own that is not applied is not known here, but a slip is.
            loaded = all(folder.allowed and not folder.problems for folder in case.rule_folders)
            if loaded or near:
                said = f"did you mean {' or '.join(near)}?" if near else "use the id of the finding"
                yield case.finding(at, "fault", f"there is no rule {name} to move", remedy=said)
        elif kept := _kept_from(change.to, change.rule, grades):
            others = [grade for grade in grades if grade not in kept]
            verb = "becomes" if len(others) == 1 else "become"
            rest = f"; only its {' and '.join(others)} {verb} {change.to}" if others else ""
            yield case.finding(
                at,
                "caution" if others else "fault",
                f"policy cannot lower a {kept[0]}: the {kept[0]}s of {name} stay {kept[0]}s{rest}",
                remedy=_REMEDY[kept[0]],
            )


def _kept_from(to: Grade, rule: str, grades: Sequence[Grade]) -> list[Grade]:
    """Classes that keep from being lowered; raising what is milder is no attempt on them."""
    kept: list[Grade] = [
        grade
        for grade in grades
        if severity(grade) < severity(to) and (grade == "stop" or guards_meaning(rule, grade))
    ]
    others = [grade for grade in grades if grade not in kept]
    raised = any(severity(grade) > severity(to) for grade in others)
    lowered = not others or severity(to) > min(severity(grade) for grade in others)
    return kept if lowered or not raised else []
