"""Sequences in the order of their starts: when, which bench, verdict, and when things end."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import Any

from methodlint.checking.report import Report, Verdict
from methodlint.documents.quantities.format import counted, show
from methodlint.rehearsal.calendar.booking import Booking
from methodlint.rehearsal.calendar.calendar import Calendar, CylinderTurn, StoreTurn
from methodlint.reports.card.blocks import CardRows
from methodlint.reports.consequences import rounded

__all__ = ["calendar_data", "sequence_verdict", "week_block"]

_MOST = 40


def sequence_verdict(report: Report, booking: Booking) -> Verdict:
    """Verdict on one sequence: what was found of it, of its methods and of its cards."""
    others = {one.path for one in _all(report.calendar)} - {booking.path}

    def concerns(paths: set[str], subject: str) -> bool:
        return subject not in others and bool(paths & booking.papers)

    grades = {
        finding.grade
        for finding in report.findings
        if concerns(set(report.judged(finding)), finding.subject)
    }
    unusable = {item.subject for item in report.unusable} & booking.papers
    failed = [one for one in report.failed if one.subject not in others]
    if grades & {"stop", "fault"} or unusable or failed:
        return "do not run"
    lacking = any(
        concerns({item.at.document.path, item.subject}, item.subject)
        for item in report.unchecked_stops
    )
    aside = any(
        item.finding.grade == "stop" and concerns({item.document.path}, item.finding.subject)
        for item in report.set_aside
    )
    return "run with care" if "caution" in grades or lacking or aside else "clear to run"


def _all(calendar: Calendar | None) -> tuple[Booking, ...]:
    return (*calendar.dated, *calendar.undated) if calendar is not None else ()


def week_block(report: Report, *, brief: bool = False) -> CardRows | None:
    """Lay the calendar of a report out; None without one.

    Parameters
    ----------
    brief
        Without verdict and CO2 of each sequence, which a table above tells.
    """
    calendar = report.calendar
    if calendar is None:
        return None
    rows = [_row(report, one, brief=brief) for one in calendar.dated[:_MOST]]
    more = len(calendar.dated) - _MOST
    if more > 0:
        rows.append(("and", f"{counted(more, 'more sequence')}; all of them with --show json"))
    stores = (*_cylinder_rows(calendar), *_weighed_later_rows(calendar), *_bottle_rows(calendar))
    return CardRows("week", "CALENDAR", (*rows, *stores))


def _row(report: Report, booking: Booking, *, brief: bool) -> tuple[str, str]:
    begins, ends = booking.begins, booking.ends
    assert begins is not None
    last = "end not known"
    if ends is not None:
        same_day = ends.date() == begins.date()
        last = f"to {ends:%H:%M}" if same_day else f"to {ends:%a %m-%d %H:%M}"
    said = f"{last} on {booking.names.get('instrument', 'no bench')}: {booking.name}"
    if not brief:
        said += f", {sequence_verdict(report, booking).upper()}"
    if booking.draw is not None and not brief:
        said += f"; {show(booking.draw.demand, 'mass', 'kg')} CO2"
    if booking.unattended:
        said += f"; {show(booking.unattended, 'time', 'h')} with nobody there"
    return f"{begins:%a %Y-%m-%d %H:%M}", said


def _moment(moment: datetime.datetime | None) -> str:
    return f"{moment:%a %Y-%m-%d %H:%M}" if moment is not None else "at an unknown time"


def _supplies(calendar: Calendar) -> dict[str, list[CylinderTurn]]:
    found: dict[str, list[CylinderTurn]] = {}
    for booking in calendar.dated:
        turn = calendar.cylinder(booking)
        if turn is not None:
            found.setdefault(booking.names["supply"], []).append(turn)
    return found


def _cylinder_rows(calendar: Calendar) -> Iterator[tuple[str, str]]:
    for name, turns in _supplies(calendar).items():
        taken = sum(turn.end.demand for turn in turns)
        said = f"{show(taken, 'mass', 'kg')} for {counted(len(turns), 'sequence')}"
        for turn in turns:
            if turn.empties:
                booking = turn.booking
                moment = booking.at(turn.end.clock if turn.end.clock is not None else 0.0)
                how = "ends" if turn.end.expected_first is not None else "may end"
                when = f" about {_moment(moment)}" if turn.end.clock is not None else ""
                said += f"; cylinder {turn.number} {how}{when}, in {booking.name}"
        left = turns[-1].left
        if left is not None and left > 0.0:
            said += f"; {show(left, 'mass', 'kg')} left that can be drawn"
        yield f"CO2 of {name}", said


def _weighed_later_rows(calendar: Calendar) -> Iterator[tuple[str, str]]:
    """Sequences that drew from a cylinder before its weighing: no balance can be given."""
    earlier: dict[tuple[str, datetime.date], int] = {}
    for one in calendar.dated:
        if one.draw is None or one.weighed is None or one.begins is None:
            continue
        if one.begins.date() < one.weighed:
            key = (one.names["supply"], one.weighed)
            earlier[key] = earlier.get(key, 0) + 1
    for (name, weighed), number in earlier.items():
        said = f"weighed {weighed}, after {counted(number, 'sequence')} began: not counted"
        yield f"CO2 of {name}", said


def _bottle_turns(calendar: Calendar) -> dict[tuple[str, int], list[StoreTurn]]:
    found: dict[tuple[str, int], list[StoreTurn]] = {}
    for booking in calendar.dated:
        for turn in calendar.bottles(booking):
            found.setdefault((booking.names["solvents"], turn.use.number), []).append(turn)
    return found


def _bottle_rows(calendar: Calendar) -> Iterator[tuple[str, str]]:
    """Bottles that end, each by itself; of the others what is left, card by card."""
    left_over: dict[str, list[str]] = {}
    for (name, _), turns in _bottle_turns(calendar).items():
        use = turns[0].use
        empty = [turn for turn in turns if turn.early is not None]
        said = f"{use.name}: {show(use.usable, 'volume', 'mL')} can be drawn"
        for turn in empty:
            how = "ends" if turn.clock is not None else "may end"
            moment = turn.booking.at(turn.clock if turn.clock is not None else turn.early or 0.0)
            said += f"; {how} about {_moment(moment)}, in {turn.booking.name}"
        if empty:
            yield name, said
            continue
        last = turns[-1]
        left = show(use.usable - last.taken - last.use.left_taken, "volume", "mL")
        whole = show(use.usable, "volume", "mL")
        left_over.setdefault(name, []).append(f"{left} of {whole} {use.name}")
    for name, said_of in left_over.items():
        yield name, f"left after the last sequence: {', '.join(said_of)}"


def calendar_data(report: Report) -> dict[str, Any] | None:
    """The calendar as plain data; None without one."""
    calendar = report.calendar
    if calendar is None:
        return None
    return {
        "sequences": [
            {
                "path": one.path,
                "instrument": one.names.get("instrument"),
                "begins": _iso(one.begins),
                "ends": _iso(one.ends),
                "verdict": sequence_verdict(report, one),
                "co2_kg": rounded(one.draw.demand) if one.draw is not None else None,
                "unattended_h": rounded(
                    one.unattended / 3600.0 if one.unattended is not None else None
                ),
            }
            for one in calendar.dated
        ],
        "cylinders": [
            {
                "supply": name,
                "sequence": turn.booking.path,
                "cylinder": turn.number,
                "taken_before_kg": rounded(turn.taken),
                "left_kg": rounded(turn.left),
                "ends": _iso(turn.booking.at(turn.end.clock) if turn.end.clock else None),
            }
            for name, turns in _supplies(calendar).items()
            for turn in turns
        ],
        "bottles": [
            {
                "solvents": name,
                "bottle": number,
                "sequence": turn.booking.path,
                "taken_before_ml": rounded(turn.taken * 1e6),
                "ends": _iso(turn.booking.at(turn.clock) if turn.clock is not None else None),
            }
            for (name, number), turns in _bottle_turns(calendar).items()
            for turn in turns
        ],
    }


def _iso(moment: datetime.datetime | None) -> str | None:
    return moment.isoformat(timespec="minutes") if moment is not None else None
