"""A pressure is a usual one in the unit that is written beside it.

Reason
    2000 bar breaks a column, 2000 psi is an ordinary outlet pressure. A value that is usual only in
    another unit was most likely copied from a display that showed that unit. It is not converted:
    the value counts as unknown until somebody writes what is meant.

Unsound
    kind: method
    outlet_pressure: 2000 bar  # <- here

Sound
    kind: method
    outlet_pressure: 2000 psi

Sound, because 60 to 1200 bar are taken as they are
    kind: method
    outlet_pressure: 60 bar
    pressure_limits: {high: 1200 bar}

Remedy
    Write the unit that is meant; the message gives each reading in bar.

Source
    1 psi = 6894.757 Pa: NIST SP 811, table B.8 (unverified). Span of usual pressures: common
    practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
