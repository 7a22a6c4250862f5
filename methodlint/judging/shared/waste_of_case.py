"""Waste of a sequence: how far vessels may be filled, and what fractions keep out of them."""

from __future__ import annotations

from methodlint.judging.case import BatchCase
from methodlint.rehearsal.batch.collected import collected_in
from methodlint.rehearsal.batch.waste import DEFAULT_FILL, WasteFill, waste_fills

__all__ = ["collected_modifier", "fills_of", "part_filled"]


def part_filled(case: BatchCase) -> float:
    """Part of a waste vessel that may be filled [-]: the lab's, or four fifths."""
    lab = case.policy.waste_fill
    return lab.si if lab is not None else DEFAULT_FILL


def collected_modifier(case: BatchCase) -> dict[str, float]:
    """Modifier that each sample injection sends into fraction vessels [m3], by method."""
    found = {}
    for name, run in case.runs.items():
        if run.rehearsal is not None and run.method is not None and run.method.collection:
            fractions = collected_in(case.batch, name, run.rehearsal, run.method)
            found[name] = sum(one.liquid - one.added for one in fractions)
    return found


def fills_of(case: BatchCase) -> tuple[tuple[WasteFill, ...], tuple[str, ...]]:
    """Waste vessels of the room over the sequence, and the figures that others lack."""
    room = case.documents.get("room")
    if room is None:
        return (), ()
    bottles, instrument = case.documents.get("solvents"), case.documents.get("instrument")
    collected = collected_modifier(case)
    return waste_fills(case.batch, room, bottles, instrument, part_filled(case), collected)
