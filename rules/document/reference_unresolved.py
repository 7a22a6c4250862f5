"""A document refers to cards that are there, each by a name found once.

Reason
    Without the card the figures on it are missing, and everything that needs them is not checked.

Unsound
    kind: method
    column: colum  # <- here

Sound
    kind: method
    column: column

Remedy
    Use the name that the message offers, or write the missing card. A name found in two places has
    to be given up in one of them.

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
