"""Additives that a run sends through the flow path, each with its place."""

from __future__ import annotations

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.solvents import Solvents
from methodlint.judging.case import RunCase
from methodlint.judging.finding import At
from methodlint.rehearsal.contacts.dissolved import Dissolved, dissolved_in
from methodlint.rehearsal.contacts.in_a_run import makeup_of

__all__ = ["additives_in_flow", "makeup_liquid"]


def makeup_liquid(case: RunCase) -> tuple[Liquid, At] | None:
    """Makeup of a run with its place: the method's own, or that of the bottle on its line."""
    if case.method is None or case.method.makeup is None:
        return None
    found = makeup_of(case.documents)
    if found is None:
        return None
    at = At(found.document, found.path)
    if isinstance(found.document.model, Solvents):
        return found.document.model.bottles[int(found.path[1])], at
    return case.method.makeup, at


def additives_in_flow(case: RunCase) -> list[tuple[At, Dissolved, str]]:
    """Additives of modifier and makeup, each with its place and "modifier" or "makeup"."""
    liquids: list[tuple[Liquid, At, str]] = []
    modifier = case.method_liquid()
    if modifier is not None:
        liquids.append((modifier, case.at("method.mobile_phase.modifier"), "modifier"))
    makeup = makeup_liquid(case)
    if makeup is not None:
        liquids.append((*makeup, "makeup"))
    return [
        (At(at.document, (*at.path, "additives", part.index)), part, role)
        for liquid, at, role in liquids
        for part in dissolved_in(liquid)
    ]
