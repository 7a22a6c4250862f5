"""When a sequence runs with nobody in the room: its clock against the staffed hours."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from methodlint.documents.kinds.room import Room, Staffed
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.batch.lines import Batch

_DAY = datetime.timedelta(days=1)
_LONGEST = 60
"""Days looked at; a longer sequence is unstaffed at night anyway."""


@dataclass(frozen=True, slots=True)
class ClockSpan:
    """A span of the lab's own clock."""

    begins: datetime.datetime
    ends: datetime.datetime

    @property
    def words(self) -> str:
        """The span as people write it."""
        same_day = self.begins.date() == self.ends.date()
        last = f"{self.ends:%H:%M}" if same_day else f"{self.ends:%Y-%m-%d %H:%M}"
        return f"{self.begins:%Y-%m-%d %H:%M} to {last}"


def hours_of(staffed: Staffed) -> tuple[datetime.time, datetime.time] | None:
    """Read both ends of the staffed hours; None if one is no time of the day `HH:MM`."""
    try:
        return (
            datetime.time.fromisoformat(staffed.begins.strip()),
            datetime.time.fromisoformat(staffed.ends.strip()),
        )
    except ValueError:
        return None


def unstaffed_spans(
    room: Room, begins: datetime.datetime | None, duration: float
) -> tuple[ClockSpan, ...] | None:
    """Spans of a sequence that lie outside the staffed hours.

    Parameters
    ----------
    room
        The room card; every day of the week counts alike.
    begins
        Start of the sequence.
    duration
        Of the sequence [s].

    Returns
    -------
    tuple of ClockSpan or None
        Empty if somebody is there all the time; None if the start or the staffed hours are not
        known.
    """
    if room.staffed == "always":
        return ()
    hours = hours_of(room.staffed) if room.staffed is not None else None
    if hours is None or begins is None:
        return None
    begins = begins.replace(tzinfo=None)
    opens, closes = hours
    ends = clock_at(begins, duration)
    spans: list[ClockSpan] = []
    reached = begins
    day = begins.date() - _DAY
    for _ in range(_LONGEST):
        if reached >= ends:
            break
        first = datetime.datetime.combine(day, opens)
        last = datetime.datetime.combine(day, closes)
        if last <= first:  # a night shift ends on the next day
            last += _DAY
        if last > reached:
            if first > reached:
                spans.append(ClockSpan(reached, min(first, ends)))
            reached = last
        day += _DAY
    else:
        spans.append(ClockSpan(reached, ends))
    return tuple(spans)


def clock_words(batch: Batch, first: float | None, last: float | None) -> str:
    """Write a span of a sequence's clock [s from its start] as times of day.

    Returns
    -------
    str
        In brackets with a space before; from the start of the sequence in hours where nobody
        says when it begins, and empty without a first time.
    """
    if first is None:
        return ""
    last = first if last is None else last
    if batch.typed.begins is None:
        return f" ({first / 3600.0:.1f} to {last / 3600.0:.1f} h after the start)"
    begins = batch.typed.begins.replace(tzinfo=None)
    span = ClockSpan(clock_at(begins, first), clock_at(begins, last))
    return f" ({span.words})"
