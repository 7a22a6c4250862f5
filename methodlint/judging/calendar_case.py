"""One sequence among the others that are planned at the same benches and supplies."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.judging.case import Case
from methodlint.rehearsal.calendar.booking import Booking
from methodlint.rehearsal.calendar.calendar import Calendar


@dataclass
class CalendarCase(Case):
    """One sequence with the calendar that it is in; what others leave is judged at it.

    Attributes
    ----------
    booking
        The sequence.
    calendar
        All that were checked together.
    """

    booking: Booking = None  # type: ignore[assignment]
    calendar: Calendar = None  # type: ignore[assignment]

    @property
    def name(self) -> str:
        """What the case is about."""
        return self.documents["sequence"].path
