"""Every key holds the shape its kind knows: a value, a list or a mapping, with what it must have.

Reason
    A list where a mapping is due, or a row without its time, cannot be used, and neither can
    what depends on it.

Unsound
    kind: method
    programme:
      - {modifier_share: 5 % v/v}  # <- here

Sound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}

Remedy
    Write what the message says is missing, or the shape it names.

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
