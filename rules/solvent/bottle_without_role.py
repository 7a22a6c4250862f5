"""Every bottle on the list is known for what it is there for.

Reason
    Washes, makeup and modifiers are judged by what they do. A bottle whose line says nothing to
    anybody is carried along unjudged: it may be the wash that ruins the column.

Unsound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}
      - {line: left corner, liquid: acetone, fill: 500 mL}  # <- here

Sound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}
      - {line: left corner, role: storage, liquid: 2-propanol, fill: 500 mL}

Remedy
    Write its `role`: modifier, makeup, wash, seal wash, flush or storage.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import modifier_bottles, role_of
from methodlint.judging.ask.rule import BatchCase, Finding, visible

SUBJECT = "batch"
CLASSES = ("note",)
NEEDS = ("solvents.bottles",)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Name the bottles without a role on a line that neither the pump nor a method knows."""
    drawn = {index for index, _ in modifier_bottles(case.documents)}
    methods = [run.method for run in case.runs.values() if run.method is not None]
    named = {method.makeup.line for method in methods if method.makeup is not None}
    named |= {
        getattr(method.mobile_phase.modifier, "line", None)
        for method in methods
        if method.mobile_phase is not None
    }
    for index, bottle in enumerate(case.solvents.bottles if case.solvents else ()):
        if role_of(bottle) is None and index not in drawn and bottle.line not in named:
            yield case.finding(
                f"solvents.bottles[{index}].line",
                "note",
                f"nothing tells what the bottle on '{visible(bottle.line)}' is for: no line of the "
                "modifier pump and no method names it, and nothing was judged of it",
                remedy="write its role: modifier, makeup, wash, seal wash, flush or storage",
            )
