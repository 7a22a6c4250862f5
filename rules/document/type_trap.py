"""A value is read as what it looks like.

Reason
    Without quotation marks `1E2` is the number 100 and not a well, `12:30` is a number to base 60
    for older readers and `no` is a flag for them. What is read otherwise than it was meant is not
    used.

Unsound
    kind: method
    detectors: no  # <- here

Unsound, because the number 100 is no well
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: 1E2}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: "1E2"}

Remedy
    Put names in quotation marks; leave a key out instead of writing `no`.

Source
    YAML Ain't Markup Language 1.2.2, section 10.3.2, and the types of YAML 1.1 (unverified).
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what was found when the document was read."""
    yield from case.reported()
