"""A value lies within the span that is usual for what it is.

Reason
    A value far outside is most often a slip of the decimal point or of the unit: 254 mm for a
    wavelength, 40 mL/min on a narrow column. A day that no calendar has belongs here too, a zero
    where nothing can be judged by it, and a tolerance as wide as the value.

Unsound
    kind: method
    detectors: [{type: UV, wavelength: 2540 nm}]  # <- here

Sound
    kind: method
    detectors: [{type: UV, wavelength: 254 nm}]

Unsound, because no pressure stays below it
    kind: column
    pressure_rating: 0 bar  # <- here

Sound, because it is left open
    kind: column

Sound, because the scale is declared
    kind: method
    purpose: preparative
    flow: 180 mL/min

Remedy
    Compare the value with its source; the message says whether ten, a hundred or a thousand times
    less or more would be usual. Columns are judged by their dimensions, an outlet pressure by what
    the regulator controls.

Source
    Usual spans: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import implausible_values
from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault", "caution")
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Compare every quantity with the span of its kind."""
    yield from case.reported()
    preparative = getattr(case.document.model, "purpose", None) == "preparative"
    broken = case.document.broken
    for item in implausible_values(case.document.model, preparative=preparative):
        # A value that cannot be used is no value that is missing.
        if any(path[: len(item.path)] == item.path for path in broken):
            continue
        yield case.finding(
            case.at(case.document, item.path),
            "caution",
            item.message,
            remedy=f"compare it with its source; usual are {item.usual}",
        )
