"""Every key of a document is one that its kind knows.

Reason
    A key that is not known is not read: what it was meant to set stays unset, and nobody
    notices until the run does something else.

Unsound
    kind: method
    backpresure: 120 bar  # <- here

Sound
    kind: method
    outlet_pressure: 120 bar
    x-approved-in: our own register

Remedy
    Use the key that the message offers. Keys of your own start with `x-` and are never judged.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what the reader of the document has found."""
    yield from case.reported()
