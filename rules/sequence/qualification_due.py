"""Instrument and balance are qualified on the last day of the sequence.

Reason
    Results from a pump, an oven, a wavelength or a balance whose qualification has run out, or
    that failed it, are not accepted in regulated work, however good they are.

Unsound
    kind: sequence
    purpose: regulated
    ---
    kind: instrument
    qualifications: [{of: pumps, done: 2025-11-20, due: 2026-11-20}]  # <- here

Sound
    kind: sequence
    purpose: regulated
    ---
    kind: instrument
    qualifications: [{of: pumps, done: 2026-03-02, due: 2027-03-02}]

Sound, because research goes by its own judgement
    kind: sequence
    purpose: research
    ---
    kind: instrument
    qualifications: [{of: pumps, done: 2025-11-20, due: 2026-11-20}]

Remedy
    Have it qualified before the start, or run on an instrument that is.

Source
    The instrument card. That results need a qualified instrument: good manufacturing and
    laboratory practice; common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding
from methodlint.judging.ask.sequence import clock_at

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ()
TAGS = ("regulated", "bioanalysis")


def applies(case: BatchCase) -> bool:
    """Research and screening go by their own judgement."""
    return case.quantitative


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare every due date with the day on which the sequence ends."""
    begins, last = case.get("sequence.begins"), case.last_day
    if begins is not None:
        last = clock_at(begins, case.batch.duration).date()
    for index, item in enumerate(case.instrument.qualifications if case.instrument else ()):
        if item.passed is False:
            said, key = f"{item.of}: the last qualification failed", "passed"
        elif item.due is not None and last is not None and item.due < last:
            days = (last - item.due).days
            last_time = f" of {item.done}" if item.done is not None else ""
            said = f"{item.of}: qualification{last_time} was due on {item.due}, {days} d before the end"
            key = "due"
        else:
            continue
        yield case.finding(
            f"instrument.qualifications[{index}].{key}",
            "fault",
            said,
            remedy="have it qualified before the start, or run on an instrument that is",
        )
