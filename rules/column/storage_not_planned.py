"""A sequence leaves its columns without additive, in the liquid that they are stored in.

Reason
    Acid, amine or salt that is left on a column over night goes on working, and salt dries out in
    frits and tubes.

Unsound
    kind: method
    mobile_phase:
      modifier: {liquid: methanol, line: modifier-1, additives: [{additive: TFA, level: 0.1 % v/v}]}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}  # <- here

Sound
    kind: method
    mobile_phase:
      modifier: {liquid: methanol, line: modifier-1, additives: [{additive: TFA, level: 0.1 % v/v}]}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, duration: 5 min}

Sound, because the next booking goes on
    kind: method
    mobile_phase:
      modifier: {liquid: methanol, line: modifier-1, additives: [{additive: TFA, level: 0.1 % v/v}]}
    ---
    kind: sequence
    after: next booking
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    End with a flush of the modifier without additive, 10 hold-up volumes.

Source
    Common practice, no source. Storage liquid: the column card.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import TO_STORE, Left, cards, left_on_columns
from methodlint.judging.ask.liquids import components_of
from methodlint.judging.ask.rule import BatchCase, Candidate, Finding, NotChecked, show

SUBJECT = "batch"
CLASSES = ("caution", "note")
NEEDS = ("sequence.lines",)


def applies(case: BatchCase) -> bool:
    """A booking that goes on within a day stores nothing."""
    sequence = case.sequence
    return sequence is not None and not sequence.continuous and sequence.after != "next booking"


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare what is left on each column with its storage liquid."""
    assert case.sequence is not None
    left = left_on_columns(
        case.sequence,
        case.batch.methods,
        {name: run.columns for name, run in case.runs.items()},
        case.batch.runs,
    )
    for state in left:
        card = next(card for _, card in cards((state.column,)))
        stored = components_of(card.storage_liquid) if card.storage_liquid is not None else ()
        if state.additives:
            names = " and ".join(dict.fromkeys(state.additives))
            yield _finding(case, state, stored, f"the last line leaves {names} on")
        elif not stored:
            reason = f"of {state.column.name}"
            yield case.not_checked(case.at(state.column), "column.storage_liquid", reason)
        elif {name for name, _ in stored} != {name for name, _ in state.components}:
            said = " + ".join(name for name, _ in state.components) or "pure CO2"
            words = " + ".join(name for name, _ in stored)
            yield _finding(
                case, state, stored, f"stored in {words}, the last line leaves {said} on"
            )


def _finding(
    case: BatchCase, state: Left, stored: tuple[tuple[str, float], ...], said: str
) -> Finding:
    liquid = (stored or state.components or (("methanol", 1.0),))[0][0]
    text = f"flush with {liquid} without additive"
    candidates: list[Candidate] = []
    if state.hold_up is not None and state.flow:
        volume = TO_STORE * state.hold_up
        minutes = math.ceil(volume / state.flow / 60.0)
        text += f", {show(volume, 'volume', 'mL')}, {minutes} min"
        step = {"kind": "flush", "liquid": liquid, "duration": f"{minutes} min"}
        step["method"] = state.method
        change = case.change(case.line_at(state.line + 1), step, insert=True)
        candidates.append(case.candidate(f"{text}, after line {state.line + 1}", change))
    return case.finding(
        case.line_at(state.line),
        "caution" if state.additives else "note",
        f"{said} {state.column.name}",
        remedy="" if candidates else text,
        candidates=candidates,
        also=(case.at(state.column, "storage_liquid"),),
    )
