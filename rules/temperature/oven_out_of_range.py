"""The oven can reach and hold the temperature that the method sets.

Reason
    Outside its span an oven waits for ever or runs at another temperature. Without cooling it
    cannot hold less than about five degrees above the room.

Unsound
    kind: method
    oven_temperature: 95 degC  # <- here

Unsound, because an oven without cooling cannot go below the room
    kind: method
    oven_temperature: 28 degC  # <- here
    ---
    kind: instrument
    oven: {lowest: 5 degC, highest: 90 degC, cooled: false}

Sound
    kind: method
    oven_temperature: 28 degC
    ---
    kind: instrument
    oven: {lowest: 5 degC, highest: 90 degC, cooled: true}

Remedy
    Set a temperature within the span of the oven, or take an oven with cooling.

Source
    Span: the instrument card. Five degrees above the room, and rooms of up to 30 degC: common
    practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import FilledRow, filled_rows
from methodlint.judging.ask.rule import At, Finding, NotChecked, RunCase, When, celsius, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.oven_temperature", "instrument.oven.lowest", "instrument.oven.highest")

_ABOVE_ROOM = 5.0
_WARM_ROOM = 308.15
"""Rooms above 30 degC are rare: a set temperature beyond this asks for no figure of the room."""


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare every set temperature with the span, and with the room if there is no cooling."""
    assert case.method is not None
    rows = [row for row in filled_rows(case.method) if row.temperature is not None]
    coolest = min(rows, key=lambda row: row.temperature or 0.0)
    warmest = max(rows, key=lambda row: row.temperature or 0.0)
    lowest = case.get("instrument.oven.lowest").si
    highest = case.get("instrument.oven.highest").si
    for row, limit, key, sign in (
        (coolest, lowest, "lowest", -1),
        (warmest, highest, "highest", 1),
    ):
        if sign * ((row.temperature or 0.0) - limit) > 1e-6:
            yield _outside(case, row, limit, key)
            return
    yield from _without_cooling(case, coolest)


def _outside(case: RunCase, row: FilledRow, limit: float, key: str) -> Finding:
    found = row.temperature or 0.0
    return _finding(
        case,
        row,
        limit,
        f"the oven is set to {show(found, 'temperature')}; its {key} temperature is "
        f"{show(limit, 'temperature')} ({show(abs(found - limit), 'temperature difference')} "
        f"outside)",
        (case.at(f"instrument.oven.{key}"),),
    )


def _without_cooling(case: RunCase, row: FilledRow) -> Iterator[Finding | NotChecked]:
    cooled, found = case.get("instrument.oven.cooled"), row.temperature or 0.0
    if cooled or found >= _WARM_ROOM:
        return
    if cooled is None:
        yield case.not_checked(
            "instrument.oven", "instrument.oven.cooled", "the set temperature is near the room's"
        )
        return
    room = case.get("room.highest_temperature")
    if room is None:
        yield case.not_checked(
            "method.oven_temperature", "room.highest_temperature", "the oven has no cooling"
        )
        return
    limit = room.si + _ABOVE_ROOM
    if found >= limit - 1e-6:
        return
    yield _finding(
        case,
        row,
        limit,
        f"the oven is set to {show(found, 'temperature')} and has no cooling; in a room of up to "
        f"{show(room.si, 'temperature')} it holds {show(limit, 'temperature')} and more "
        f"({show(limit - found, 'temperature difference')} too cool)",
        (case.at("instrument.oven.cooled"), case.at("room.highest_temperature")),
    )


def _finding(
    case: RunCase, row: FilledRow, limit: float, message: str, also: tuple[At, ...]
) -> Finding:
    text = f"{limit - 273.15:g} degC"
    where = row.places.get("temperature", "method.oven_temperature")
    return case.finding(
        where,
        "fault",
        message,
        found=celsius(row.temperature or 0.0),
        limit=celsius(limit),
        when=When(row.time),
        remedy=f"set the oven to {text}, or take another oven",
        candidates=[case.candidate(f"set the oven to {text}", case.change(where, text))],
        also=also,
    )
