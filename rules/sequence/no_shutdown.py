"""A sequence ends with a shutdown, or says what comes after it.

Reason
    After the last injection the pumps go on until somebody comes: they empty the cylinder, the
    bottles run dry, and CO2 flows through an instrument that nobody watches.

Unsound
    kind: sequence
    begins: 2026-11-24T17:30
    after: null
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL, count: 9}  # <- here

Sound
    kind: sequence
    after: null
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound, because the next booking takes over
    kind: sequence
    after: next booking
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Add a shutdown line: additive flushed out, flow lowered, lamp and source off, regulator released
    at no more than 20 bar/min. `after:` with an idle method, a standby or the next booking counts
    as well. It is a fault where nobody is there at the end, a caution else.

Source
    Common practice, no source.
"""

import datetime
from collections.abc import Iterator

from methodlint.judging.ask.room import unstaffed_spans
from methodlint.judging.ask.rule import BatchCase, Candidate, Finding
from methodlint.judging.ask.sequence import clock_at

SUBJECT = "batch"
CLASSES = ("fault", "caution")
NEEDS = ("sequence.lines",)

_ENDS = ("shutdown", "idle")
_TAKEN_OVER = ("idle method", "standby", "next booking")


def applies(case: BatchCase) -> bool:
    """An open-access queue has no end."""
    return case.sequence is not None and not case.sequence.continuous


def judge(case: BatchCase) -> Iterator[Finding]:
    """Look at the last line and at what is said to follow."""
    sequence = case.sequence
    last = case.batch.lines[-1]
    assert sequence is not None
    if sequence.after in _TAKEN_OVER:
        return
    left_on = last.line.kind in _ENDS and last.line.co2 == "on"
    if not left_on and (last.line.kind in _ENDS or sequence.after == "shutdown"):
        return
    alone = _nobody_there(case)
    begins = sequence.begins
    known = begins is not None and not case.batch.missing
    clock = ""
    if known and begins is not None:
        clock = f" at {clock_at(begins, case.batch.duration):%Y-%m-%d %H:%M}"
    said = "its last line leaves the CO2 on" if left_on else "it has no shutdown line"
    nobody = ", when nobody is in the room" if alone else ""
    yield case.finding(
        case.line_at(last.index),
        "fault" if alone else "caution",
        f"the sequence ends{clock}{nobody}: {said} and nothing is written to follow",
        remedy="add a shutdown line, or say with after: what follows",
        candidates=_candidates(case, left_on),
    )


def _nobody_there(case: BatchCase) -> bool:
    room, sequence = case.room, case.sequence
    if room is None or sequence is None or sequence.begins is None or case.batch.missing:
        return False
    spans = unstaffed_spans(room, sequence.begins, case.batch.duration)
    end = clock_at(sequence.begins.replace(tzinfo=None), case.batch.duration)
    return (
        spans is not None
        and len(spans) > 0
        and spans[-1].ends >= end - datetime.timedelta(seconds=1)
    )


def _candidates(case: BatchCase, left_on: bool) -> list[Candidate]:
    count = len(case.batch.lines)
    if left_on:
        change = case.change(case.line_at(count - 1, "co2"), "off")
        return [case.candidate('write co2: "off" in the last line', change)]
    line = {
        "kind": "shutdown",
        "duration": "5 min",
        "co2": "off",
        "makeup": "off",
        "source": "off",
        "regulator_released": True,
    }
    change = case.change(case.line_at(count), line, insert=True)
    text = "add a shutdown line of 5 min: CO2, makeup and source off, regulator released slowly"
    return [case.candidate(text, change)]
