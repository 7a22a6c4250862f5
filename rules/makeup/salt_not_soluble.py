"""Every salt in the makeup stays dissolved in it.

Reason
    The makeup's own line and check valve are narrow; a salt that comes out there blocks them, and
    what does not dissolve never reaches the spray. Ammonium acetate dissolves to 20 mM at 90 %
    acetonitrile, to 10 mM at 95 % and not at all in neat acetonitrile.

Unsound
    kind: method
    makeup:
      liquid: acetonitrile
      additives: [{additive: ammonium acetate, level: 10 mM}]  # <- here
      line: makeup
      flow: 0.2 mL/min
      tee: after the regulator

Sound
    kind: method
    makeup:
      liquid: methanol
      additives: [{additive: ammonium acetate, level: 20 mM}]
      line: makeup
      flow: 0.2 mL/min
      tee: after the regulator

Remedy
    Dissolve the salt in methanol with 5 % water, or take less of it.

Source
    Ammonium acetate in acetonitrile: a practice column after a published figure (second-hand).
    Limits in alcohols: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import Liquid
from methodlint.judging.ask.liquids import makeup_of, salt_findings
from methodlint.judging.ask.rule import At, Finding, NotChecked, RunCase

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ()


def applies(case: RunCase) -> bool:
    """There is a makeup liquid."""
    return case.method is not None and case.method.makeup is not None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare every salt of the makeup with what its liquid holds."""
    found = makeup_of(case.documents)
    if found is None:
        yield case.not_checked("method.makeup", "method.makeup.liquid")
        return
    liquid: Liquid | None = case.method.makeup if case.method else None
    if found.document.kind == "solvents" and case.solvents is not None:
        liquid = case.solvents.bottles[int(found.path[1])]
    if liquid is not None:
        yield from salt_findings(case, liquid, At(found.document, found.path), "the makeup")
