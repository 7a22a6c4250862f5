"""A document says each thing once, or the same each time.

Reason
    Where the title says 40 degC and the field 35, one of the two was changed and the other was
    forgotten. The check goes by the field; the bench may go by the title, which is no data: a note.

Unsound
    kind: method
    title: Resin oligomers, 40 C
    oven_temperature: 35 degC  # <- here

Unsound, because one share for the whole run is given with a ramp
    kind: method
    mobile_phase: {modifier: methanol, modifier_share: 5 % v/v}  # <- here
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Sound
    kind: method
    title: Resin oligomers, 35 C, 5 to 40 % methanol
    oven_temperature: 35 degC

Remedy
    Keep the one that is meant and change or take out the other; the message names both.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import contradictions
from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("caution", "note")
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report statements of one document that differ."""
    for item in contradictions(case.document.model):
        yield case.finding(
            case.at(case.document, item.path),
            "note" if item.other == ("title",) else "caution",
            item.message,
            remedy=item.remedy,
            also=(case.at(case.document, item.other),),
        )
