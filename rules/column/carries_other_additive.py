"""A column that held a persistent additive is flushed before it runs without it.

Reason
    Amines, acids and ion-pair agents stay on a column for days and change retention and shape
    as they bleed off, above all with little modifier.

Unsound
    kind: column
    last_mobile_phase: {liquid: methanol, additives: [{additive: diethylamine, level: 0.2 % v/v}]}  # <- here
    ---
    kind: sequence
    equilibration: 2 min

Sound
    kind: column
    last_mobile_phase: methanol

Sound, because it is flushed first
    kind: column
    last_mobile_phase: {liquid: methanol, additives: [{additive: diethylamine, level: 0.2 % v/v}]}
    ---
    kind: sequence
    equilibration: 10 min

Remedy
    Flush with 20 to 50 hold-up volumes, or keep a column for methods with this additive.

Source
    Equilibration is much longer with an additive: "Unravelling the effects of mobile phase
    additives in supercritical fluid chromatography, part II" (abstract only). Volumes: common
    practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import (
    TO_CLEAN,
    TO_CLEAN_WELL,
    cards,
    has_additive,
    persistent_additives,
    washed_before,
)
from methodlint.judging.ask.document import Liquid
from methodlint.judging.ask.liquids import components_of
from methodlint.judging.ask.rule import Candidate, Finding, Loaded, RunCase, millilitres, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "column.last_mobile_phase")


def applies(case: RunCase) -> bool:
    """A column that never ran carries nothing."""
    return bool(case.get("column.injections.count") != 0)


def judge(case: RunCase) -> Iterator[Finding]:
    """Look for persistent additives of the last mobile phase that this method lacks."""
    modifier = case.method_liquid()
    hold_up = case.run.hold_up_volume
    for loaded, card in cards(case.columns):
        last = card.last_mobile_phase
        if last is None:
            continue
        for additive in persistent_additives(last):
            if modifier is not None and has_additive(modifier, additive.name):
                continue
            washed = washed_before(case.documents, case.run, additive.name)
            if washed < TO_CLEAN * hold_up * (1.0 - 1e-6):
                yield _finding(case, loaded, additive.name, washed, hold_up, modifier)


def _finding(
    case: RunCase,
    loaded: Loaded,
    additive: str,
    washed: float,
    hold_up: float,
    modifier: Liquid | None,
) -> Finding:
    flow = float(case.run.set_flow[0])
    wanted = TO_CLEAN * hold_up
    minutes = math.ceil((wanted - washed) / flow / 60.0) if flow > 0.0 else 0
    text = (
        f"flush with {show(wanted, 'volume', 'mL')} to "
        f"{show(TO_CLEAN_WELL * hold_up, 'volume', 'mL')}, {minutes} min or more at "
        f"{show(flow, 'volume flow')}"
    )
    return case.finding(
        case.at(loaded, "last_mobile_phase"),
        "caution",
        f"{loaded.name} last held {additive}, which this method lacks; "
        f"{show(washed, 'volume', 'mL')} go through it before the first injection, "
        f"{show(wanted, 'volume', 'mL')} take it off",
        found=millilitres(washed),
        limit=millilitres(wanted),
        remedy=f"{text}, or keep a column for methods with {additive}",
        candidates=_candidates(case, minutes, modifier, text),
        also=(case.at("method.mobile_phase.modifier"),),
    )


def _candidates(case: RunCase, minutes: int, modifier: Liquid | None, text: str) -> list[Candidate]:
    parts = components_of(modifier) if modifier is not None else ()
    if "sequence" not in case.documents or len(parts) != 1 or minutes == 0:
        return []
    step = {"kind": "flush", "liquid": parts[0][0], "duration": f"{minutes} min"}
    step["method"] = case.documents["method"].name
    change = case.change("sequence.lines[0]", step, insert=True)
    return [case.candidate(f"{text}: a first line 'flush', {parts[0][0]}, {minutes} min", change)]
