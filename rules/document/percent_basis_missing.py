"""A percentage says whether it is by volume, by mass or by amount.

Reason
    20 % v/v of methanol as set at the pumps is about 16 to 17 % w/w, because cold CO2 is denser
    than methanol. Whoever carries the figure over to another instrument needs to know which.

Unsound
    kind: method
    mobile_phase: {modifier: methanol, modifier_share: 20 %}  # <- here

Sound
    kind: method
    mobile_phase: {modifier: methanol, modifier_share: 20 % v/v}

Remedy
    Write `% v/v`, `% w/w` or `% mol`.

Source
    Densities: Span and Wagner 1996 for CO2 (954 kg/m3 at 10 degC and 150 bar); methanol 792 kg/m3
    at 20 degC (from memory). The habit of `v/v` at the pumps: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
