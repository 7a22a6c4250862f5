"""A document can be read as YAML, in UTF-8, from a regular file.

Reason
    What cannot be read is not checked, and no part of it is guessed.

Unsound
    kind: method
    programme: [{time: 0 min}  # <- here

Sound
    kind: method
    programme: [{time: 0 min}]

Remedy
    Close what is open, give each key its colon and a space, and indent with spaces. The message
    names the line where reading stopped, which may be after the mistake.

Source
    YAML Ain't Markup Language 1.2.2.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
