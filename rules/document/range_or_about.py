"""A value is one figure; how far it may be off is its tolerance.

Reason
    "35-40 degC", "about 2" and "room temperature" cannot be set, and the two ends of a range may
    have different findings.

Unsound
    kind: method
    oven_temperature: 35-40 degC  # <- here

Unsound, because a word is no value
    kind: method
    oven_temperature: ambient  # <- here

Sound
    kind: method
    oven_temperature: {value: 37 degC, tolerance: 2 degC}

Remedy
    Write the value that is set and, where it matters, its tolerance.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
