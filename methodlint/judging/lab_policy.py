"""What the lab's own document changes: classes of findings, and what its cards leave open."""

from __future__ import annotations

import copy
from dataclasses import replace

from methodlint.documents.kinds.lab import ClassChange, Lab
from methodlint.documents.kinds.room import Room
from methodlint.documents.loading import Loaded
from methodlint.documents.memo import memoize_last
from methodlint.judging.finding import At, Finding, Moved, guards_meaning, severity


def as_the_lab_says(finding: Finding, lab: Loaded[Lab] | None) -> Finding:
    """Raise or lower a finding's class as the lab says, and say so.

    A stop keeps its class, and a fault that guards the meaning of a document is not lowered.
    """
    if lab is None or finding.grade == "stop":
        return finding
    for number, change in _changes(lab).get(finding.rule, ()):
        if change.to == finding.grade:
            continue
        lowers = severity(change.to) > severity(finding.grade)
        if lowers and guards_meaning(finding.rule, finding.grade):
            continue
        at = At(lab, ("classes", number))
        return replace(
            finding,
            grade=change.to,
            message=f"{finding.message} ({finding.grade} made {change.to} by the lab's policy: "
            f"{change.reason})",
            also=(*finding.also, at),
            moved=Moved(finding.grade, change.reason, at),
        )
    return finding


@memoize_last
def _changes(lab: Loaded[Lab]) -> dict[str, list[tuple[int, ClassChange]]]:
    changes: dict[str, list[tuple[int, ClassChange]]] = {}
    for number, change in enumerate(lab.model.classes):
        changes.setdefault(change.rule, []).append((number, change))
    return changes


def with_staffed_hours(room: Loaded[Room], lab: Loaded[Lab] | None) -> Loaded:
    """Give a room that names no staffed hours those of the lab's policy.

    The card itself stays as it is: only what judges runs in that room sees the hours.
    """
    policy = lab.model.policy if lab is not None else None
    if policy is None or policy.staffed is None or lab is None:
        return room
    if getattr(room.model, "staffed", None) is not None or ("staffed",) in room.broken:
        return room
    data = copy.deepcopy(room.data)
    data["staffed"] = copy.deepcopy(lab.data["policy"]["staffed"])
    return replace(room, model=room.model.model_copy(update={"staffed": policy.staffed}), data=data)
