"""The bottle on a line holds what the method expects there.

Reason
    The pump draws from the line, whatever is in the bottle. Another alcohol or a forgotten
    additive gives a chromatogram that looks right and is not.

Unsound
    kind: method
    mobile_phase: {modifier: {liquid: methanol, line: modifier-2}}  # <- here

Sound
    kind: method
    mobile_phase: {modifier: {liquid: EtOH, line: modifier-2}}

Remedy
    Name the line that holds the liquid, or change the bottle and its card.

Source
    Levels within 5 % of themselves and parts of a blend within 2 % of the whole count as the same:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import Liquid, Makeup
from methodlint.judging.ask.liquids import (
    components_of,
    liquid_difference,
    liquid_words,
    makeup_bottle,
)
from methodlint.judging.ask.rule import At, Candidate, Finding, NotChecked, RunCase

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.mobile_phase", "solvents.bottles")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare modifier and makeup of the method with the bottles on their lines."""
    modifier = case.method_liquid()
    if modifier is not None:
        line = case.get("method.mobile_phase.modifier.line")
        if line is None:
            yield case.not_checked(
                "method.mobile_phase.modifier", "method.mobile_phase.modifier.line"
            )
        else:
            yield from _compare(case, modifier, line, "method.mobile_phase.modifier")
    makeup = case.method.makeup if case.method else None
    if makeup is not None:
        line = makeup.line or _makeup_line(case, makeup)
        if line is None:
            yield case.not_checked("method.makeup", "method.makeup.line")
        else:
            yield from _compare(case, makeup, line, "method.makeup")


def _makeup_line(case: RunCase, makeup: Makeup) -> str | None:
    """Line of the only makeup bottle where the method names neither a line nor a liquid."""
    if components_of(makeup):
        return None
    bottles = case.solvents.bottles if case.solvents else ()
    index = makeup_bottle(bottles, makeup)
    return bottles[index].line if index is not None else "makeup"


def _compare(case: RunCase, wanted: Liquid, line: str, where: str) -> Iterator[Finding]:
    bottles = case.solvents.bottles if case.solvents else ()
    index = next((i for i, bottle in enumerate(bottles) if bottle.line == line), None)
    at = f"{where}.line" if case.get(f"{where}.line") is not None else where
    if index is None:
        lines = ", ".join(bottle.line for bottle in bottles)
        yield case.finding(
            at,
            "fault",
            f"no bottle is on line {line}; there are {lines}",
            remedy="name a line that has a bottle",
            candidates=_candidates(case, wanted, where),
            also=(case.at("solvents.bottles"),),
        )
        return
    if not components_of(wanted) and not wanted.additives:
        return
    difference = liquid_difference(wanted, bottles[index])
    if not difference:
        return
    yield case.finding(
        at,
        "fault",
        f"the method expects {liquid_words(wanted)} on {line}, the bottle there holds "
        f"{liquid_words(bottles[index])}: {difference}",
        remedy="name the line that holds it, or change the bottle and its card",
        candidates=_candidates(case, wanted, where),
        also=(At(case.documents["solvents"], ("bottles", index)),),
    )


def _candidates(case: RunCase, wanted: Liquid, where: str) -> list[Candidate]:
    found = []
    for bottle in case.solvents.bottles if case.solvents else ():
        if components_of(wanted) and not liquid_difference(wanted, bottle):
            change = case.change(f"{where}.line", bottle.line)
            found.append(case.candidate(f"draw from {bottle.line}, which holds it", change))
    return found
