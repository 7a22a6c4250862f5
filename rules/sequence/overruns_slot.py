"""A sequence begins and ends within the time that is booked for it.

Reason
    The next user finds the instrument running, and the last samples are stopped by hand. A
    sequence that begins outside its slot most often has the wrong day or hour written down, and
    one that would run for a month on end a wrong count or length.

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

Remedy
    Book as long as the message says, or take out the injections that do not fit. If the sequence
    begins outside its slot, correct the one or the other.

Source
    Run length, settling time and what the instrument takes between two runs are added up; no
    source is needed. Half an hour for a start before the slot: common practice, no source.
"""

import datetime
from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, NotChecked, When, counted, show
from methodlint.judging.ask.sequence import clock_at

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = (
    "batch",
    "sequence.lines[].count",
    "sequence.lines[].duration",
    "sequence.lines[].run_length",
)

_LONGEST = 31 * 86400.0  # [s]; no bench runs a month on end: common practice, no source
_EARLY = 1800.0  # [s]; who starts a little before the hour has found the instrument free


def applies(case: BatchCase) -> bool:
    """Only a booking that ends can be overrun; a month on end is looked at in any case."""
    slot = case.sequence.slot if case.sequence is not None else None
    return (slot is not None and not slot.open_ended) or case.batch.duration > _LONGEST


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare begin and end of the sequence with those of the slot."""
    sequence = case.sequence
    assert sequence is not None
    slot = sequence.slot
    if case.batch.duration > _LONGEST:
        yield _endless(case)
        return
    assert slot is not None
    if slot.length is None:
        yield case.not_checked("sequence.slot", "sequence.slot.length")
        return
    allowed = slot.length.si
    if sequence.begins is not None and slot.begins is not None:
        first, booked = sequence.begins.replace(tzinfo=None), slot.begins.replace(tzinfo=None)
        after = (first - booked).total_seconds()
        if after < -_EARLY or after >= allowed:
            yield _outside(case, first, booked, allowed)
            return
        allowed -= after
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


def _endless(case: BatchCase) -> Finding:
    days = case.batch.duration / 86400.0
    return case.finding(
        case.at("sequence.lines"),
        "caution",
        f"the sequence would run for {days:.0f} days on end, with "
        f"{counted(case.batch.injections, 'injection')}: a count or a length is wrong",
        found=Measure(days, "d"),
        limit=Measure(_LONGEST / 86400.0, "d"),
        remedy="check `count:`, `run_length:` and `duration:` of the lines",
    )


def _outside(
    case: BatchCase, first: datetime.datetime, booked: datetime.datetime, length: float
) -> Finding:
    """Tell of a begin that the slot does not hold; how many would fit is then no question."""
    ends = clock_at(booked, length)
    late = first >= ends
    by = (first - ends if late else booked - first).total_seconds()
    side = "after its end" if late else "before it"
    span = f"{booked:%Y-%m-%d %H:%M} to {ends:%Y-%m-%d %H:%M}"
    begins = Measure((first - booked).total_seconds() / 3600.0, "h")
    return case.finding(
        case.at("sequence.begins"),
        "caution",
        f"the sequence begins at {first:%Y-%m-%d %H:%M}, outside its slot ({span}): "
        f"{show(by, 'time', 'h')} {side}; it takes {show(case.batch.duration, 'time', 'h')}",
        found=begins,
        limit=Measure(length / 3600.0 if late else 0.0, "h"),
        remedy="begin within the slot, or book the time at which it begins",
        also=(case.at("sequence.slot"),),
    )


def _injection_ends(case: BatchCase) -> list[float]:
    ends: list[float] = []
    for line in case.batch.lines:
        if line.injects:
            each = (line.ends - line.begins) / line.injections
            ends += [line.begins + each * (number + 1) for number in range(line.injections)]
    return ends
