"""A key occurs once in its mapping, and an identity is given once.

Reason
    Most readers of YAML keep the last of two equal keys and say nothing, so the run does
    something else than the page shows.

Unsound
    kind: method
    flow: 2 mL/min
    flow: 1.5 mL/min  # <- here

Sound
    kind: method
    flow: 1.5 mL/min

Remedy
    Keep one of the two; the message names the line of the first.

Source
    YAML Ain't Markup Language 1.2.2, section 3.2.1.1: the keys of a mapping are unique.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
