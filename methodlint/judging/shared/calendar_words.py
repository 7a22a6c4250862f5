"""Moments of the calendar, and who was there before, in words."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from methodlint.documents.text.visible import visible
from methodlint.judging.calendar_case import CalendarCase
from methodlint.rehearsal.bench.staffed_hours import unstaffed_spans
from methodlint.rehearsal.calendar.booking import Booking

__all__ = ["clock_text", "hand_words", "names_of"]

_NAMED = 3


def clock_text(moment: datetime.datetime | None) -> str:
    """Write a moment of the lab's clock."""
    return f"{moment:%Y-%m-%d %H:%M}" if moment is not None else "an unknown time"


def names_of(before: Sequence[Booking]) -> str:
    """Name the sequences that were there before, the last ones first."""
    names = [visible(one.name) for one in reversed(before)]
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    return ", ".join(names[:_NAMED]) + more


def hand_words(case: CalendarCase, moment: datetime.datetime | None) -> str:
    """Say that nobody is in the room at a moment; empty where somebody is, or nothing is known."""
    if case.room is None or moment is None:
        return ""
    away = unstaffed_spans(case.room, moment, 60.0)
    return ", when nobody is in the room" if away else ""
