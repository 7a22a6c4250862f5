"""A document holds no characters that cannot be seen.

Reason
    A character of no width makes two equal names different; one that turns the direction of
    writing makes a line read otherwise than it is.

Unsound
    kind: method
    title: purity of\u200b batch 7  # <- here

Sound
    kind: method
    title: purity of batch 7

Remedy
    Delete the character at the place that the message names, or type the line anew.

Source
    Unicode Technical Report 36, security considerations (unverified).
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = (
    "fault",
    "caution",
)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
