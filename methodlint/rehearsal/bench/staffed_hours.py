"""When a sequence runs with nobody in the room: its clock against the staffed hours."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import get_args

from methodlint.documents.kinds.room import Room, Staffed, Weekday
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.batch.lines import Batch

_DAY = datetime.timedelta(days=1)
_NAMES: tuple[Weekday, ...] = get_args(Weekday)
_SATURDAY = 5
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


def _spells(room: Room) -> tuple[Staffed, ...]:
    if room.staffed is None or isinstance(room.staffed, str):
        return ()
    return (room.staffed,) if isinstance(room.staffed, Staffed) else room.staffed


def _staffed_on(
    day: datetime.date, room: Room, spells: Iterable[Staffed]
) -> Iterator[tuple[datetime.datetime, datetime.datetime]]:
    """When somebody is there on a day, a night shift until the next morning."""
    if day in room.holidays:
        return
    for spell in spells:
        hours = hours_of(spell)
        if hours is None or (spell.days is not None and _NAMES[day.weekday()] not in spell.days):
            continue
        first, last = (datetime.datetime.combine(day, time) for time in hours)
        yield first, last if last > first else last + _DAY


def unstaffed_spans(
    room: Room, begins: datetime.datetime | None, duration: float
) -> tuple[ClockSpan, ...] | None:
    """Spans of a sequence that lie outside the staffed hours.

    Parameters
    ----------
    room
        The room card; hours without days hold on every day of the week, and none on holidays.
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
    if room.staffed == "always" and not room.holidays:
        return ()
    spells = _spells(room)
    if room.staffed == "always":
        spells = (Staffed(begins="00:00", ends="00:00"),)
    if not spells or any(hours_of(spell) is None for spell in spells) or begins is None:
        return None
    begins = begins.replace(tzinfo=None)
    ends = clock_at(begins, duration)
    spans: list[ClockSpan] = []
    reached = begins
    day = begins.date() - _DAY
    for _ in range(_LONGEST):
        if reached >= ends or day > ends.date():
            break
        for first, last in sorted(_staffed_on(day, room, spells)):
            if last > reached and first < ends:
                if first > reached:
                    spans.append(ClockSpan(reached, first))
                reached = last
        day += _DAY
    if reached < ends:
        spans.append(ClockSpan(reached, ends))
    return tuple(spans)


def weekend_not_stated(
    room: Room, begins: datetime.datetime | None, duration: float
) -> datetime.date | None:
    """Day of a weekend that counts as staffed only because no hours of the card name their days.

    Returns
    -------
    date or None
        The first such day that the sequence reaches; None where days are named, where somebody
        is always there, or where there is no such day.
    """
    spells = _spells(room)
    if not spells or begins is None or any(spell.days is not None for spell in spells):
        return None
    begins = begins.replace(tzinfo=None)
    ends = clock_at(begins, duration)
    day = begins.date()
    for _ in range(7):
        if day.weekday() >= _SATURDAY and day not in room.holidays:
            held = _staffed_on(day, room, spells)
            if any(first < ends and last > begins for first, last in held):
                return day
        day += _DAY
    return None


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
