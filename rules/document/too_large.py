"""A document keeps to the limits of size, depth and count that make it safe to read.

Reason
    A document of ten thousand nested brackets or aliases takes any reader down. The message names
    the limit and its value.

Unsound
    kind: column
    plates: 10000000000000000000000000000000000000000000000000000000000000000000000  # <- here

Sound
    kind: column
    plates: 10000

Remedy
    Split the document, or write fewer digits.

Source
    Limits of this tool: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
