"""Nothing in a document is left to be filled in.

Reason
    "TBD", "???" or a date of 1970 come from a template. Whoever runs the document cannot know
    what was meant, and a record with them proves nothing.

Unsound
    kind: method
    title: Copy of triazole enantiomers  # <- here

Unsound, because the serial number is the template's
    kind: column
    serial: SN-0000  # <- here

Sound
    kind: method
    title: Triazole enantiomers in wine

Remedy
    Write what is meant, or take the key out. While `status: draft` is in the document it is a
    caution.

Source
    Common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import replace

from methodlint.judging.ask.document import placeholders
from methodlint.judging.ask.rule import DocumentCase, Finding, Grade, path_text, visible

SUBJECT = "document"
CLASSES = ("fault", "caution")
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Report what the reader found, then texts and dates of a template."""
    grade: Grade = "caution" if case.document.model.status == "draft" else "fault"
    for finding in case.reported():
        yield replace(finding, grade=grade)
    for path, text in placeholders(case.document.model, case.document.data):
        yield case.finding(
            case.at(case.document, path),
            grade,
            f"{path_text(path)} reads '{visible(text[:60])}': it is left to be filled in",
            remedy="write what is meant, or take the key out",
        )
