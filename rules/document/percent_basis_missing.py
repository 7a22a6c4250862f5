"""A percentage says whether it is by volume, by mass or by amount.

Reason
    20 % v/v of methanol as set at the pumps is about 17 % w/w, because cold CO2 is denser than
    methanol. A bare % on a pump's display means v/v of the set flows; a blend made by hand may be
    v/v or w/w. Whoever carries the figure over to another instrument needs to know which.

Unsound
    kind: method
    mobile_phase: {modifier: methanol, modifier_share: 20 %}  # <- here

Sound
    kind: method
    mobile_phase: {modifier: methanol, modifier_share: 20 % v/v}

Remedy
    Write `% v/v`, `% w/w` or `% mol`.

Source
    Densities: Span and Wagner 1996 for CO2 (954 kg/m3 at 10 degC and 150 bar); methanol 791.3 kg/m3
    at 20 degC (Przybyla, Int. J. Thermophys. 2012, as in the ThermoML archive). So 0.2 x 791 / (0.2 x 791 + 0.8 x 954) = 17.2 % w/w.
    The habit of `v/v` at the pumps: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
