"""What the lab's own document changes: classes of findings, and what its cards leave open."""

from __future__ import annotations

import copy
from dataclasses import replace
from typing import cast

from methodlint.documents.kinds.lab import Lab
from methodlint.documents.loading import Loaded
from methodlint.judging.finding import At, Finding


def as_the_lab_says(finding: Finding, lab: Loaded | None) -> Finding:
    """Raise or lower a finding's class as the lab says, and say so; a stop keeps its class."""
    if lab is None or finding.grade == "stop":
        return finding
    for number, change in enumerate(cast(Lab, lab.model).classes):
        if change.rule == finding.rule and change.to != finding.grade:
            return replace(
                finding,
                grade=change.to,
                message=f"{finding.message} ({finding.grade} made {change.to} by the lab's policy: "
                f"{change.reason})",
                also=(*finding.also, At(lab, ("classes", number))),
            )
    return finding


def with_staffed_hours(room: Loaded, lab: Loaded | None) -> Loaded:
    """Give a room that names no staffed hours those of the lab's policy.

    The card itself stays as it is: only what judges runs in that room sees the hours.
    """
    policy = cast(Lab, lab.model).policy if lab is not None else None
    if policy is None or policy.staffed is None or lab is None:
        return room
    if getattr(room.model, "staffed", None) is not None or ("staffed",) in room.broken:
        return room
    data = copy.deepcopy(room.data)
    data["staffed"] = copy.deepcopy(lab.data["policy"]["staffed"])
    return replace(room, model=room.model.model_copy(update={"staffed": policy.staffed}), data=data)
