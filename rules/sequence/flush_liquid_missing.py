"""A flush names a liquid on a line of the modifier pump.

Reason
    The pump draws what is in the bottle, whatever the sequence says. With no bottle of the liquid
    the flush runs with another one; if its only bottle holds an additive, the additive goes
    through the column that the flush is meant to free of it.

Unsound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, additives: [{additive: diethylamine, level: 0.1 % v/v}]}
    ---
    kind: method
    mobile_phase:
      modifier: {liquid: methanol, additives: [{additive: diethylamine, level: 0.1 % v/v}], line: modifier-1}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, duration: 10 min}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: EtOH, duration: 10 min}

Sound, because the salt that ran before is volatile and no column holds it
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, additives: [{additive: ammonium formate}]}
    ---
    kind: method
    mobile_phase: {modifier: {liquid: methanol, additives: [{additive: ammonium formate}]}}

Remedy
    Put a bottle of the liquid on a line and add it to the list of bottles, or write what the flush
    really draws.

Source
    Levels within 5 % of themselves and parts of a blend within 2 % of the whole count as the same:
    common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.document import Bottle, Liquid
from methodlint.judging.ask.liquids import (
    additives_of,
    components_of,
    find_liquid,
    lasting,
    liquid_difference,
    liquid_words,
    modifier_bottles,
    same_liquids,
)
from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, counted
from methodlint.judging.ask.sequence import LineRun

SUBJECT = "batch"
CLASSES = ("fault", "caution")
NEEDS = ("solvents.bottles",)

_CO2 = ("co2", "carbon dioxide")


def applies(case: BatchCase) -> bool:
    """A flush names its liquid."""
    return any(_named(run) is not None for run in case.batch.lines)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Look each liquid of a flush up among the bottles; the same one in many lines is told once."""
    bottles = modifier_bottles(case.documents)
    if not bottles:
        return
    previous = case.get("sequence.previous.modifier")
    before = set(additives_of(previous)) if previous is not None else set()
    unknown: set[str] = set()
    missing: dict[tuple[str, tuple[str, ...]], list[LineRun]] = {}
    for run in case.batch.lines:
        own = case.runs.get(run.method)
        modifier = own.method_liquid() if own is not None else None
        wanted = _named(run)
        if wanted is None:
            before |= set(additives_of(modifier)) if modifier is not None else set()
            continue
        if not any(_does(bottle, wanted, before) for _, bottle in bottles):
            names = [name for name, _ in components_of(wanted) if find_liquid(name) is None]
            if names and names[0] not in unknown:
                unknown.add(names[0])
                at = case.line_at(run.index, "liquid")
                yield case.not_checked(at, "fluids", f"{names[0]} is not known")
            elif not names:
                carried = tuple(sorted(before - set(additives_of(wanted))))
                missing.setdefault((liquid_words(wanted), carried), []).append(run)
    for (words, carried), runs in missing.items():
        yield _finding(case, bottles, words, carried, runs)


def _named(run: LineRun) -> Liquid | None:
    """Liquid of a flush; CO2 alone comes from no bottle."""
    liquid = run.line.liquid if run.line.kind == "flush" else None
    names = [name for name, _ in components_of(liquid)] if liquid is not None else []
    return liquid if any(name.lower() not in _CO2 for name in names) else None


def _does(bottle: Bottle, wanted: Liquid, before: set[str]) -> bool:
    """Whether a bottle holds it, or nothing more than ran before and leaves nothing behind."""
    more, named = set(additives_of(bottle)), set(additives_of(wanted))
    harmless = named <= more and more - named <= before and not lasting(more - named)
    return not liquid_difference(wanted, bottle) or (same_liquids(wanted, bottle) and harmless)


def _finding(
    case: BatchCase,
    bottles: tuple[tuple[int, Bottle], ...],
    words: str,
    carried: tuple[str, ...],
    runs: list[LineRun],
) -> Finding:
    wanted = runs[0].line.liquid
    assert wanted is not None
    others = f" and {counted(len(runs) - 1, 'other')}" if len(runs) > 1 else ""
    said = f"line {runs[0].index + 1}{others} flush{'' if others else 'es'} with {words}, "
    held = next((item for item in bottles if same_liquids(wanted, item[1])), None)
    drawn = set(additives_of(held[1])) - set(additives_of(wanted)) if held else set()
    back = sorted(lasting(drawn & set(carried)))
    if held is None:
        there = ", ".join(f"{liquid_words(bottle)} on {bottle.line}" for _, bottle in bottles)
        said += f"which no bottle of the modifier pump holds; there is {there}"
    else:
        said += f"but {held[1].line} holds {liquid_words(held[1])}"
    if back:
        said += f": {' and '.join(back)} goes through the column, not out of it"
    what = f" or write that the flush draws {liquid_words(held[1])}" if held else ""
    return case.finding(
        case.line_at(runs[0].index, "liquid"),
        "fault" if back else "caution",
        said,
        remedy=f"put a bottle of {words} on a line{what}",
        also=(case.at(f"solvents.bottles[{held[0]}]" if held else "solvents.bottles"),),
    )
