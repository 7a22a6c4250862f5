"""Hand-over, cautions and emergency on the card."""

from __future__ import annotations

from methodlint.documents.kinds.lab import Lab
from methodlint.documents.quantities.format import show
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.batch.bench_state import (
    BenchState,
    differences,
    said_state,
    state_left,
    state_wanted,
)
from methodlint.reports.card.blocks import Alert, CardRows, Steps
from methodlint.reports.safety_words import ALWAYS, CAUTIONS, COLLECTING

__all__ = [
    "caution_block",
    "emergency_block",
    "found_block",
    "left_block",
]

_NO_STEPS = "Leave the room, close the door, let nobody in; call for help from outside."


def state_words(state: BenchState) -> str:
    """Write what is known of a state."""
    parts = [
        f"{state.modifier} in the modifier lines" if state.modifier else "",
        f"column {state.column}" if state.column else "",
        f"oven {show(state.oven_temperature, 'temperature')}" if state.oven_temperature else "",
        f"CO2 {state.co2}" if state.co2 else "",
        f"makeup {state.makeup}" if state.makeup else "",
    ]
    return ", ".join(part for part in parts if part)


def found_block(case: BatchCase) -> CardRows | None:
    """State that the booking before left, and what has to change before the first line."""
    sequence = case.sequence
    found = said_state(sequence.previous if sequence is not None else None)
    if not found.known:
        return None
    rows = [("left by the last", state_words(found))]
    for what, first, second in differences(found, state_wanted(case.batch)):
        rows.append(("change", f"{what}: {first} -> {second}"))
    if len(rows) == 1:
        rows.append(("change", "nothing that is known"))
    return CardRows("found", "AS FOUND", tuple(rows))


def left_block(case: BatchCase) -> CardRows:
    """State that the sequence leaves, and where its own word differs."""
    sequence = case.sequence
    assert sequence is not None
    rehearsed = state_left(case.batch)
    rows = [("by its lines", state_words(rehearsed) or "not known")]
    said = said_state(sequence.leaves)
    if said.known:
        rows.append(("as written", state_words(said)))
        for what, first, second in differences(said, rehearsed):
            rows.append((Alert("DIFFERS"), f"{what}: written {first}, by the lines {second}"))
    if sequence.after is not None:
        rows.append(("then", sequence.after))
    return CardRows("left", "LEFT FOR THE NEXT", tuple(rows))


def caution_block(case: BatchCase) -> Steps:
    """Standing cautions, and those of what the sequence does, to be signed."""
    *general, defer = ALWAYS
    methods = [run.method for run in case.runs.values() if run.method is not None]
    outlets = case.room.outlets if case.room is not None else ()
    if (
        any(line.stacked_every for line in case.batch.lines)
        or any(outlet.of == "collector" for outlet in outlets)
        or (case.sequence is not None and case.sequence.purpose == "preparative")
    ):
        general += COLLECTING
    if any(method.sample_hazard in ("toxic", "controlled") for method in methods):
        general.append(CAUTIONS["toxic"])
    return Steps("cautions", "CAUTIONS", (*general, defer), "caution")


def emergency_block(case: BatchCase) -> Steps:
    """The lab's own steps and its phone."""
    lab = case.lab.model if case.lab is not None else None
    steps = list(lab.emergency) if isinstance(lab, Lab) else []
    phone = lab.phone if isinstance(lab, Lab) else None
    steps = steps or [_NO_STEPS]
    steps.append(f"Phone {phone}." if phone else "Phone: the lab gives none; write it here ______.")
    return Steps("emergency", "EMERGENCY", tuple(steps), "caution")
