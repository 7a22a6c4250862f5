"""Every salt in modifier and washes stays dissolved in its bottle.

Reason
    A salt that the liquid does not hold settles in the bottle, the line and the check valves; the
    level in the mobile phase is then anybody's guess. Methanol takes ammonium salts to tens of
    millimolar, acetonitrile next to none, and no liquid that is mostly organic takes phosphate.

Unsound
    kind: method
    mobile_phase:
      modifier:
        liquid: acetonitrile
        line: modifier-1
        additives: [{additive: ammonium acetate, level: 10 mM}]  # <- here

Sound
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: ammonium acetate, level: 20 mM}]

Remedy
    Use methanol, or methanol with 2 to 5 % water, or take less salt.

Source
    Ammonium acetate in acetonitrile: a practice column after a published figure (second-hand).
    Limits in alcohols and of phosphate: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import role_of, salt_findings
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.mobile_phase",)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the salts of the modifier and of every wash with what their liquids hold."""
    modifier = case.method_liquid()
    if modifier is not None:
        yield from salt_findings(
            case, modifier, case.at("method.mobile_phase.modifier"), "the modifier"
        )
    for index, bottle in enumerate(case.solvents.bottles if case.solvents else ()):
        if role_of(bottle) in ("wash", "seal wash"):
            at = case.at(f"solvents.bottles[{index}]")
            yield from salt_findings(case, bottle, at, f"the {bottle.line}")
