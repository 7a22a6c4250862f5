"""A standard is used no later than on the day it expires.

Reason
    A long batch crosses midnight, and the closing standards are injected a day after the opening
    ones.

Unsound
    kind: sequence
    begins: 2026-11-24T09:00
    lines:
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL, expires: 2026-11-23}  # <- here
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Sound, because it holds until the end of the day
    kind: sequence
    begins: 2026-11-24T09:00
    lines:
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL, expires: 2026-11-24}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Prepare it anew, or inject it earlier.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, When, visible
from methodlint.judging.ask.sequence import LineRun, clock_at, lines_in_words

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("batch", "sequence.begins", "sequence.lines[].expires")


def applies(case: BatchCase) -> bool:
    """Only lines with an expiry raise the question; a broken one does too."""
    sequence = case.documents.get("sequence")
    if sequence is None or case.sequence is None:
        return False
    broken = any(path[-1:] == ("expires",) for path in sequence.broken)
    return broken or any(line.expires is not None for line in case.sequence.lines)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare the end of every line's last injection with the end of the day of expiry."""
    sequence = case.sequence
    assert sequence is not None
    begins = sequence.begins
    assert begins is not None
    late: list[LineRun] = []
    for line in case.batch.lines:
        expires = line.line.expires
        if expires is not None and clock_at(begins, line.ends).date() > expires:
            late.append(line)
    if not late:
        return
    line = late[0]
    yield case.finding(
        case.line_at(line.index, "expires"),
        "caution",
        f"'{visible(line.line.sample or line.line.kind)}' expires on {line.line.expires}, its line "
        f"ends at {clock_at(begins, line.ends):%Y-%m-%d %H:%M} ({lines_in_words(late)})",
        when=When(injection=line.first_injection, last_injection=line.last_injection),
        remedy="prepare it anew, or inject it earlier",
    )
