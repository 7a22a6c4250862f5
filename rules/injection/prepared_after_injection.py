"""A sample is prepared before it is injected.

Reason
    A preparation that is dated later than the injection is a slip of a day or an hour, in one of
    the two. Until it is corrected nobody can tell how long the sample has stood.

Unsound
    kind: sequence
    begins: 2026-11-24T09:00
    prepared: 2026-11-25T08:00  # <- here

Sound
    kind: sequence
    begins: 2026-11-24T09:00
    prepared: 2026-11-24T08:00

Sound, because the sample comes late in the sequence
    kind: sequence
    begins: 2026-11-24T09:00
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: conditioning, sample: pool, plate: 1, well: A2, fill: 1 mL, count: 20}
      - {kind: sample, sample: x, plate: 1, well: D1, fill: 1 mL, prepared: "2026-11-24T11:00"}

Remedy
    Correct the date of the preparation or the begin of the sequence, or move the line after the
    time at which its sample is ready.

Source
    The clock of the sequence; no source is needed. A quarter of an hour by which two notes of one
    moment may differ: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, When, counted, show, visible
from methodlint.judging.ask.sequence import not_yet_there

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("batch", "sequence.begins")

_MINUTE = "%Y-%m-%d %H:%M"


def applies(case: BatchCase) -> bool:
    """Only a moment of preparation raises the question, and a queue without an end has no clock."""
    sequence = case.sequence
    if sequence is None or sequence.continuous:
        return False
    return sequence.prepared is not None or any(line.prepared for line in sequence.lines)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare the preparation of every line with its first injection; told once, at the first."""
    early = list(not_yet_there(case.batch))
    if not early:
        return
    first = early[0]
    run = first.run
    name = f"'{visible(run.line.sample)}'" if run.line.sample else f"the {run.line.kind}"
    yield case.finding(
        case.line_at(run.index, "prepared") if first.own else case.at("sequence.prepared"),
        "caution",
        f"{name} in line {run.index + 1} is prepared at {first.prepared:{_MINUTE}} and injected at "
        f"{first.injected:{_MINUTE}}, {show(first.early, 'time', 'h')} earlier; prepared too late "
        f"are the samples of {counted(len(early), 'line')}",
        found=Measure(first.early / 3600.0, "h"),
        limit=Measure(0.0, "h"),
        when=When(injection=run.first_injection, last_injection=run.last_injection),
        remedy="correct the date of the preparation or the begin of the sequence",
        also=(case.at("sequence.begins"), case.line_at(run.index)),
    )
