"""A key that takes one of a few words holds one of them.

Reason
    A word that is not known would be passed over, and the rules that depend on it with it.

Unsound
    kind: sequence
    lines:
      - {kind: smaple, plate: 1, well: A1}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: sample, plate: 1, well: A1}

Remedy
    Use the word that the message offers.

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
