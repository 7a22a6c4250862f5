"""Judges sequences in the order of their starts, after each has been judged by itself."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping, Sequence

from methodlint.checking.report import Report
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.loading import Loaded
from methodlint.judging.calendar_case import CalendarCase
from methodlint.judging.case import BatchCase
from methodlint.judging.deviations import set_deviations_aside
from methodlint.judging.engine import judge_case
from methodlint.judging.lab_policy import with_staffed_hours
from methodlint.judging.loader import Rule
from methodlint.judging.shared.bookings import booking_of
from methodlint.rehearsal.calendar.booking import Booking
from methodlint.rehearsal.calendar.calendar import Calendar

__all__ = ["add_calendar", "bookings_of", "joined_calendars"]

Documents = Callable[[Booking, bool], Mapping[str, Loaded]]
"""Documents of a sequence by kind; whether the sequence itself has to be whole."""


def joined_calendars(first: Calendar | None, second: Calendar) -> Calendar:
    """Join the calendars of two lab folders; their cards are different ones."""
    before = (*first.dated, *first.undated) if first is not None else ()
    return Calendar([*before, *second.dated, *second.undated])


def bookings_of(batches: Sequence[BatchCase]) -> list[Booking]:
    """What the calendar keeps of rehearsed sequences."""
    return [booking_of(case) for case in batches]


def add_calendar(
    report: Report,
    bookings: Sequence[Booking],
    documents_of: Documents,
    lab: Loaded[Lab] | None,
    rules: Sequence[Rule],
    first_day: datetime.date | None,
) -> None:
    """Judge what sequences do to each other, and add it to the report of each by itself.

    Parameters
    ----------
    report
        Added to: findings, and the calendar itself if it holds several dated sequences.
    documents_of
        Asked for sequences that share something; for a whole one only where something is found.
    lab
        The lab's document.
    first_day
        Day before which sequences are over; None if dates are not judged.
    """
    if len(bookings) < 2:
        return
    calendar = Calendar(bookings, first_day)
    asked = [rule for rule in rules if rule.subject == "calendar"]
    if calendar.shared:
        report.calendar = calendar
    for booking in (*calendar.dated, *calendar.undated):
        if not asked or not calendar.concerns(booking):
            continue
        for whole in (False, True):
            documents = dict(documents_of(booking, whole))
            if "room" in documents:
                documents["room"] = with_staffed_hours(documents["room"], lab)
            case = CalendarCase(
                documents=documents, lab=lab, as_of=first_day, booking=booking, calendar=calendar
            )
            result = judge_case(case, asked)
            if not result.findings:
                break
        set_deviations_aside(result)
        report.add(booking.path, result.findings)
        report.not_checked.extend(result.not_checked)
        report.set_aside.extend(result.set_aside)
        report.failed.extend(result.failed)
        report.checked += result.checked
        report.made.setdefault(booking.path, set()).update(result.made)
