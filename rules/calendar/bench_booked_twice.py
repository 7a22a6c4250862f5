"""A bench runs one sequence at a time.

Reason
    Two sequences that are both sound by themselves cannot run on one bench at the same time: the
    second user finds the bench taken, or the first one's samples are stopped by hand.

Unsound
    kind: sequence
    x-name: second
    begins: 2026-11-24T10:00  # <- here

Sound
    kind: sequence
    x-name: second
    begins: 2026-11-25T10:00
    slot: {begins: "2026-11-25T09:30", length: 9 h}

Remedy
    Begin after the end that the message gives, move one of them to another bench, or write
    `status: draft` in the one that is not planned.

Source
    Run length, settling time and the time between two runs are added up; no source is needed. One
    minute, which clocks may differ by: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import CalendarCase, clock_text
from methodlint.judging.ask.rule import Finding, Measure, show, visible

SUBJECT = "calendar"
CLASSES = ("fault",)
NEEDS = ()

_CLOCKS = 60.0  # [s]


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Compare its start with the ends of those that start before it."""
    found = case.calendar.overlapping("instrument", case.booking)
    clashes = [(other, over) for other, over in found if over > _CLOCKS]
    if not clashes:
        return
    other, over = max(clashes, key=lambda clash: clash[1])
    more = f"; so do {len(clashes) - 1} more" if len(clashes) > 1 else ""
    bench = visible(case.booking.names["instrument"])
    yield case.finding(
        "sequence.begins",
        "fault",
        f"it begins on {bench} at {clock_text(case.booking.begins)}, while {visible(other.name)} "
        f"runs there from {clock_text(other.begins)} to {clock_text(other.ends)}: they overlap by "
        f"{show(over, 'time', 'h')}{more}",
        found=Measure(over / 3600.0, "h"),
        limit=Measure(0.0, "h"),
        remedy=f"begin after {clock_text(max(one.ends for one, _ in clashes if one.ends))}, or "
        "move one of them to another bench",
        also=(case.at("sequence.instrument"),),
    )
