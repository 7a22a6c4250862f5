"""A sequence finds the bench as it expects it.

Reason
    What the sequence before leaves in the modifier line, in the oven and on the column is there when
    the next one starts. A line that still holds the other modifier gives the first injections
    another mobile phase; an oven that still cools shifts their retention.

Unsound
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null
    previous: {modifier: ethanol}  # <- here

Sound
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null
    previous: {modifier: methanol}

Remedy
    Write the state that the sequence before leaves, give the time to purge and to settle before
    the first result, or add the flush to the sequence before.

Source
    How fast an oven heats or cools (5 K/min) and the time that a column takes to follow it
    (10 min): common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import (
    OVEN_RATE,
    OVEN_SOAK,
    Booking,
    CalendarCase,
    clock_text,
    differences,
)
from methodlint.judging.ask.rule import Finding, minutes, show, visible

SUBJECT = "calendar"
CLASSES = ("caution", "note")
NEEDS = ()

_SAME_TEMPERATURE = 1.0  # [K]


def applies(case: CalendarCase) -> bool:
    """Only where another sequence was at the bench before."""
    return case.calendar.previous(case.booking) is not None


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Compare what is left with what is expected, then with what the first line starts in."""
    own, before = case.booking, case.calendar.previous(case.booking)
    assert before is not None
    name = f"{visible(before.name)} (until {clock_text(before.ends)})"
    apart = [
        f"{what}: left {visible(left)}, expected {visible(wanted)}"
        for what, left, wanted in differences(before.left, own.expected)
    ]
    if apart:
        yield case.finding(
            "sequence.previous",
            "caution",
            f"{name} leaves the bench in another state than this sequence expects; "
            f"{'; '.join(apart)}",
            remedy="write the state that is left, or change the lines of the sequence before",
        )
        return
    time, purged = own.makes_ready
    left, wanted = before.left.modifier, own.wanted.modifier
    if left and wanted and left != wanted and not purged and time <= 0.0:
        yield case.finding(
            "sequence.begins",
            "caution",
            f"{name} leaves {visible(left)} in the modifier line, this sequence starts with "
            f"{visible(wanted)} and has neither a purge nor a time to settle before its first "
            "result",
            remedy="purge the line, or write equilibration: with the time that it needs",
        )
    yield from _oven(case, before, name)
    yield from _column(case, before, name)


def _oven(case: CalendarCase, before: Booking, name: str) -> Iterator[Finding]:
    own = case.booking
    left, wanted = before.left.oven_temperature, own.wanted.oven_temperature
    if left is None or wanted is None or before.ends is None or own.begins is None:
        return
    change = abs(wanted - left)
    has = max((own.begins - before.ends).total_seconds(), 0.0) + own.makes_ready[0]
    needs = change / OVEN_RATE + OVEN_SOAK
    if change > _SAME_TEMPERATURE and has < needs:
        yield case.finding(
            "sequence.begins",
            "caution",
            f"{name} leaves the oven at {show(left, 'temperature')}, this sequence starts at "
            f"{show(wanted, 'temperature')} and has {show(has, 'time', 'min')} before its first "
            f"result; oven and column take {show(needs, 'time', 'min')}",
            found=minutes(has),
            limit=minutes(needs),
            remedy=f"begin {show(needs - has, 'time', 'min')} later, or write that much more "
            "equilibration",
        )


def _column(case: CalendarCase, before: Booking, name: str) -> Iterator[Finding]:
    left, wanted = before.left.column, case.booking.wanted.column
    fitted = case.get("instrument.fitted_columns") or {}
    if left and wanted and left != wanted and wanted not in fitted.values():
        yield case.finding(
            "sequence.begins",
            "note",
            f"{name} runs on {visible(left)}, this sequence on {visible(wanted)}: somebody changes "
            "the column in between",
            remedy="change the column before the start",
        )
