"""Sequences that share a bench or a supply say when they begin.

Reason
    Without a start nobody knows which of two sequences comes first: what one leaves in the
    cylinder, in the bottles and in the lines cannot be counted for the other. A start is never
    guessed; such a sequence is judged by itself alone.

Unsound
    kind: sequence
    x-name: second
    begins: null  # <- here
    slot: null

Sound
    kind: sequence
    x-name: second
    begins: 2026-11-25T10:00
    slot: {begins: "2026-11-25T09:30", length: 9 h}

Remedy
    Write `begins:` with day and time, or `status: draft` in what is not planned.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import CalendarCase, names_of
from methodlint.judging.ask.rule import Finding, counted

SUBJECT = "calendar"
CLASSES = ("note",)
NEEDS = ()


def applies(case: CalendarCase) -> bool:
    """Asked once, at the first sequence without a start."""
    waiting = case.calendar.undated_sharing
    return bool(waiting) and waiting[0] is case.booking


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Name the sequences that are left out."""
    waiting = case.calendar.undated_sharing
    verb = "says" if len(waiting) == 1 else "say"
    yield case.finding(
        "sequence",
        "note",
        f"{counted(len(waiting), 'sequence')} on a bench or a supply that others use {verb} no "
        f"start ({names_of(waiting[::-1])}); what one leaves for the other is not counted",
        remedy="write begins: with day and time",
    )
