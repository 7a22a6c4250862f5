"""A percentage says whether it is by volume, by mass or by amount.

Reason
    20 % v/v of methanol as set at the pumps is about 17 % w/w, because cold CO2 is denser than
    methanol. A bare % of modifier means v/v of the set flows, as on a pump's display. What is mixed
    by hand may be v/v or w/w: the level of an additive has to say which, and the parts of a blend
    are taken as v/v where they do not.

Unsound
    kind: method
    mobile_phase:
      modifier: {liquid: methanol, additives: [{additive: formic acid, level: 0.1 %}]}  # <- here

Sound
    kind: method
    mobile_phase:
      modifier: {liquid: methanol, additives: [{additive: formic acid, level: 0.1 % v/v}]}

Sound, because a bare % at the pumps has one meaning
    kind: method
    mobile_phase: {modifier: methanol, modifier_share: 20 %}

Remedy
    Write `% v/v`, `% w/w` or `% mol`.

Source
    Densities: Span and Wagner 1996 for CO2 (954 kg/m3 at 10 degC and 150 bar); methanol 791.3 kg/m3
    at 20 degC (Przybyla, Int. J. Thermophys. 2012, as in the ThermoML archive). So 0.2 x 791 / (0.2 x 791 + 0.8 x 954) = 17.2 % w/w.
    The habit of `v/v` at the pumps: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import blends_without_basis
from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault", "note")
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
    for path in blends_without_basis(case.document.model):
        yield case.finding(
            case.at(case.document, path),
            "note",
            "the parts of this blend do not say what they are shares of: v/v is assumed",
            remedy="write % v/v or % w/w at each part",
        )
