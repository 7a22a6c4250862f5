"""The flow train has one injector, one column and one regulator in the flow, in that order.

Reason
    Pressures are computed along the train as it is written. Without a regulator nothing holds the
    outlet pressure, a second column is counted twice, and a part on the wrong side of the
    regulator or of the column is judged by a pressure that it never sees.

Unsound
    kind: instrument
    train:
      - {part: injector, name: injection valve, pressure_rating: 550 bar}
      - {part: column}
      - {part: regulator, name: regulator, pressure_rating: 380 bar, bypassed: true}  # <- here

Sound
    kind: instrument
    train:
      - {part: injector, name: injection valve, pressure_rating: 550 bar}
      - {part: column}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}

Sound, because the second regulator is out of the flow
    kind: instrument
    train:
      - {part: injector, name: injection valve, pressure_rating: 550 bar}
      - {part: column}
      - {part: regulator, name: first regulator, pressure_rating: 380 bar, bypassed: true}
      - {part: regulator, name: second regulator, pressure_rating: 380 bar}

Remedy
    Write every part that is in the flow once, in the order in which the mobile phase meets it.
    Columns in series are a list in the method's `column`.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import train_faults
from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def applies(case: DocumentCase) -> bool:
    """Only an instrument has a train."""
    return case.document.kind == "instrument"


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report each part that is missing, bypassed, there twice or out of order."""
    for item in train_faults(case.instrument.train if case.instrument else ()):
        yield case.finding(
            case.at(case.document, item.path), "fault", item.message, remedy=item.remedy
        )
