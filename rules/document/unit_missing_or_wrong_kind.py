"""Every physical value is a number with a unit of the kind that its key wants.

Reason
    A bare number is read in one unit by its writer and in another by whoever sets it. Nothing is
    computed from a value whose unit had to be guessed.

Unsound
    kind: method
    flow: 2  # <- here

Unsound, because a temperature is given where a pressure is expected
    kind: method
    outlet_pressure: 40 degC  # <- here

Sound
    kind: method
    flow: 2 mL/min
    suitability: {replicates: 5, resolution: 1.5}

Remedy
    Write the unit that is meant; the message offers those that make the figure a usual one. Counts,
    ratios and indices stay bare numbers.

Source
    Number and unit belong together: ISO 80000-1 (unverified). Usual spans: common practice, no
    source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
