"""Water in the modifier of a method, and candidates that take it out or carry it."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.fluids.additives.known import find_additive
from methodlint.judging.case import RunCase
from methodlint.judging.finding import Candidate
from methodlint.rehearsal.plan.run_plan import components_of

_LESS_WATER = (8, 5, 4, 3, 2, 1)
_MORE_MODIFIER = (20, 25, 30, 40, 50)


def water_in_modifier(case: RunCase) -> float:
    """Share of water in the modifier by volume [-], as a part of the blend or as an additive."""
    liquid = case.method_liquid()
    if liquid is None:
        return 0.0
    water = sum(share for name, share in components_of(liquid) if name == "water")
    for entry in liquid.additives:
        found = find_additive(entry.additive)
        if found is None or found.kind != "water" or entry.level is None:
            continue
        if entry.level.dimension == "share":
            water += entry.level.si
    return water


def less_water(case: RunCase, water: float) -> Iterator[Candidate]:
    """Candidates with less water in a blend, the first organic liquid making up for it."""
    liquid = case.method_liquid()
    parts = liquid.liquids if liquid is not None else ()
    names = [find_additive(part.liquid) for part in parts]
    wet = [i for i, found in enumerate(names) if found is not None and found.kind == "water"]
    if len(parts) != 2 or len(wet) != 1:
        return
    at = "method.mobile_phase.modifier.liquids"
    for value in _LESS_WATER:
        if value < 100 * water:
            yield case.candidate(
                f"keep the modifier at {value} % water",
                case.change(f"{at}[{wet[0]}].share", f"{value} % v/v"),
                case.change(f"{at}[{1 - wet[0]}].share", f"{100 - value} % v/v"),
                way="water",
            )


def more_modifier(case: RunCase) -> Iterator[Candidate]:
    """Candidates with more modifier where it is set once for the whole method."""
    method = case.method
    if method is None or len(method.programme) > 1:
        return
    at = "method.programme[0].modifier_share"
    given = method.programme[0].modifier_share if method.programme else None
    if given is None and method.mobile_phase is not None:
        at, given = "method.mobile_phase.modifier_share", method.mobile_phase.modifier_share
    for value in _MORE_MODIFIER:
        if given is not None and value > 100 * given.si:
            change = case.change(at, f"{value} % v/v")
            yield case.candidate(f"set the modifier share to {value} %", change, way="share")


def mostly_acetonitrile(case: RunCase) -> bool:
    """Whether half of the modifier or more is acetonitrile."""
    liquid = case.method_liquid()
    return liquid is not None and dict(components_of(liquid)).get("acetonitrile", 0.0) >= 0.5
