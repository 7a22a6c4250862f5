"""A sequence ends within the time that is booked for it.

Reason
    The next user finds the instrument running, and the last samples are stopped by hand.

Unsound
    kind: sequence
    begins: 2026-11-24T09:00
    slot: {begins: "2026-11-24T09:00", length: 2 h}  # <- here

Sound
    kind: sequence
    begins: 2026-11-24T09:00
    slot: {begins: "2026-11-24T09:00", length: 9 h}

Sound, because the slot has no end
    kind: sequence
    slot: {begins: "2026-11-24T09:00", length: 2 h, open_ended: true}

Put right
    Book as long as the message says, or take out the injections that do not fit.

Source
    Run length, settling time and what the instrument takes between two runs are added up; no
    source is needed.
"""

from collections.abc import Iterator

from methodlint.judging.for_rules import (
    BatchCase,
    Finding,
    Measure,
    When,
    clock_at,
    counted,
    show,
)

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = (
    "batch",
    "sequence.slot.length",
    "sequence.lines[].count",
    "sequence.lines[].duration",
    "sequence.lines[].run_length",
)


def applies(case: BatchCase) -> bool:
    """Only a booking that ends can be overrun."""
    slot = case.sequence.slot if case.sequence is not None else None
    return slot is not None and not slot.open_ended


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare the end of the last line with the end of the slot."""
    sequence = case.sequence
    assert sequence is not None
    slot = sequence.slot
    assert slot is not None
    assert slot.length is not None
    allowed = slot.length.si
    if sequence.begins is not None and slot.begins is not None:
        first, booked = sequence.begins.replace(tzinfo=None), slot.begins.replace(tzinfo=None)
        allowed -= (first - booked).total_seconds()
    over = case.batch.duration - allowed
    if over <= 0.5:
        return
    start = sequence.begins or slot.begins
    clock = f" at {clock_at(start, case.batch.duration):%Y-%m-%d %H:%M}" if start else ""
    lengths = _injection_ends(case)
    fitting = sum(end <= allowed for end in lengths)
    overhead = case.get("instrument.cycle_overhead") if "instrument" in case.documents else None
    between = (
        "" if overhead is not None else "; the time between two runs is not known and left out"
    )
    yield case.finding(
        case.at("sequence.slot.length"),
        "caution",
        f"the sequence takes {show(case.batch.duration, 'time', 'h')} and ends{clock}, "
        f"{show(over, 'time', 'h')} after its slot; {fitting} of {counted(len(lengths), 'injection')} "
        f"fit{between}",
        found=Measure(case.batch.duration / 3600.0, "h"),
        limit=Measure(allowed / 3600.0, "h"),
        when=When(injection=fitting + 1, last_injection=len(lengths)) if lengths else None,
        remedy=f"book {show(slot.length.si + over, 'time', 'h')}, or take out "
        f"{counted(len(lengths) - fitting, 'injection')}",
    )


def _injection_ends(case: BatchCase) -> list[float]:
    ends: list[float] = []
    for line in case.batch.lines:
        if line.injects:
            count = line.last_injection - line.first_injection + 1
            each = (line.ends - line.begins) / count
            ends += [line.begins + each * (number + 1) for number in range(count)]
    return ends
