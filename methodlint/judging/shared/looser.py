"""Which settings of a lab's own document let more pass than those it had before."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import BaseModel

from methodlint.documents.kinds.lab import Lab
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.text.places import Path, path_text
from methodlint.documents.text.visible import visible
from methodlint.judging.finding import Grade, severity

_DAY = 86_400.0
_MORE, _LESS = 1, -1
SETTINGS: dict[str, tuple[int, float | None]] = {
    "purpose": (_LESS, 1),
    "staffed": (_MORE, 0),
    "samples_between_brackets": (_MORE, 20),
    "time_between_brackets": (_MORE, 12 * 3600.0),
    "samples_per_control": (_MORE, 10),
    "injections_between_controls": (_MORE, 20),
    "blanks_at_start": (_LESS, 1),
    "conditioning_injections": (_LESS, 2),
    "suitability_replicates": (_LESS, 6),
    "calibration_levels": (_LESS, 6),
    "blank_after_highest": (_LESS, 0),
    "bracketing_required": (_LESS, 0),
    "two_persons_at_vessels": (_LESS, 0),
    "cylinder_heel": (_LESS, None),
    "weighing_valid_for": (_MORE, _DAY),
    "monitor_tested_within": (_MORE, 365 * _DAY),
    "boundary_margin": (_LESS, 15e5),
    "mass_load": (_MORE, 0.02),
    "waste_fill": (_MORE, 0.8),
    "bottle_reserve": (_LESS, 0.1),
    "additive_shelf_life": (_MORE, 7 * _DAY),
    "aqueous_shelf_life": (_MORE, 3 * _DAY),
    "ether_shelf_life": (_MORE, 92 * _DAY),
    "exposure_limits": (_MORE, math.inf),
    "allowance_set": (_MORE, 1),
    "transfer_allowances": (_MORE, None),
    "review": (_MORE, None),
}
"""For each threshold of `policy`: whether more or less of it lets more pass, and what counts
where it is not set [SI units]; None where that differs from card to card."""

_WORDS = {
    "regulated": 2, "bioanalysis": 2, "research": 1, "screening": 1, "preparative": 1,
    "none": 0, "pharmacopoeial": 1, "earlier-sfc": 2, "lab": 2, "always": 1,
}  # fmt: skip


def looser(
    before: Loaded | None, after: Loaded, grades: Mapping[str, tuple[Grade, ...]]
) -> Iterator[tuple[Path, str]]:
    """Yield what a lab's document lets pass that it did not before, with the place.

    Parameters
    ----------
    before
        The document that counted before; None for the defaults.
    after
        The document now.
    grades
        Classes of every rule by its id.
    """
    old = before.model if before is not None else None
    new: Lab = after.model
    yield from _thresholds(before, after)
    yield from _classes(old if isinstance(old, Lab) else None, new, grades)
    named = old.rule_folders if isinstance(old, Lab) else ()
    for name in named:
        if name not in new.rule_folders:
            yield ("rule_folders",), f"the rules in {visible(name)} are no longer named"


def _thresholds(before: Loaded | None, after: Loaded) -> Iterator[tuple[Path, str]]:
    old, new = _flat(before), _flat(after)
    for path in dict.fromkeys([*old, *new]):
        direction, default = SETTINGS[str(path[0])]
        was, now = old.get(path), new.get(path)
        if was == now or path[-1] == "jurisdiction":
            continue
        rank_was, rank_now = _rank(was, default), _rank(now, default)
        if rank_was is None or rank_now is None:
            # Hours that a lab states for the first time loosen nothing.
            differs = was is not None or rank_now is not None
        else:
            differs = direction * rank_now > direction * rank_was
        if differs:
            name = path_text(("policy", *path))
            yield (
                ("policy", *path),
                f"{name} goes from {_typed(before, path)} to {_typed(after, path)}",
            )


def _flat(lab: Loaded[Lab] | None) -> dict[Path, Any]:
    policy = getattr(lab.model, "policy", None) if lab is not None else None
    found: dict[Path, Any] = {}
    for name in SETTINGS:
        value = getattr(policy, name, None)
        if name in ("exposure_limits", "transfer_allowances", "review") and isinstance(
            value, BaseModel
        ):
            for key, below in value:
                items = below.items() if isinstance(below, dict) else [(None, below)]
                found |= {(name, key) if k is None else (name, key, k): v for k, v in items}
        else:
            found[(name,)] = value
    return {path: value for path, value in found.items() if value is not None}


def _rank(value: Any, default: float | None) -> float | None:
    if value is None:
        return default
    if isinstance(value, str):
        return float(_WORDS[value])
    if isinstance(value, Quantity):
        return value.si
    return float(value) if isinstance(value, int | float) else None


def _typed(lab: Loaded[Lab] | None, path: Path) -> str:
    value: Any = lab.data.get("policy") if lab is not None else None
    for step in path:
        value = value.get(step) if isinstance(value, dict) else None
    if value is None:
        return "what counts without it"
    if isinstance(value, dict):
        return ", ".join(f"{key} {visible(str(below))}" for key, below in value.items())
    return visible(str(value).lower() if isinstance(value, bool) else str(value))


def _classes(
    old: Lab | None, new: Lab, grades: Mapping[str, tuple[Grade, ...]]
) -> Iterator[tuple[Path, str]]:
    was: dict[str, Grade] = {}
    for change in old.classes if old is not None else ():
        was.setdefault(change.rule, change.to)
    now: dict[str, tuple[int, Grade]] = {}
    for number, change in enumerate(new.classes):
        now.setdefault(change.rule, (number, change.to))
    for rule in dict.fromkeys([*was, *now]):
        # Its stops stay stops, whatever the lab says.
        own = next((grade for grade in grades.get(rule, ("fault",)) if grade != "stop"), None)
        if own is None:
            continue
        number, grade = now.get(rule, (-1, own))
        before = was.get(rule, own)
        if severity(grade) > severity(before):
            path: Path = ("classes", number) if number >= 0 else ("classes",)
            yield path, f"{visible(rule)} goes from {before} to {grade}"
