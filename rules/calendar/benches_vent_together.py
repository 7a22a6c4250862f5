"""Benches that vent into one room at the same time stay below its limit together.

Reason
    The limit of a room is one for all that vent into it. Two benches that each stay below half of
    it may pass it together, in the hours in which both run.

Unsound
    kind: room
    volume: 28 m3
    air_changes: 0.5 1/h
    air_changes_at_night: 0.5 1/h
    outlets:
      - {name: separator, of: separator, ducted: false}
    ---
    kind: lab
    policy: {exposure_limits: {jurisdiction: house rule, co2_long: 10000 ppm}}
    ---
    kind: instrument
    x-name: bench-b
    ---
    kind: sequence
    x-name: second
    instrument: bench-b
    begins: 2026-11-24T10:00  # <- here
    slot: null

Sound
    kind: room
    volume: 45 m3
    air_changes: 6 1/h
    outlets:
      - {name: separator, of: separator, ducted: false}
    ---
    kind: lab
    policy: {exposure_limits: {jurisdiction: house rule, co2_long: 10000 ppm}}
    ---
    kind: instrument
    x-name: bench-b
    ---
    kind: sequence
    x-name: second
    instrument: bench-b
    begins: 2026-11-24T10:00
    slot: null

Remedy
    Run one after the other, or lead the vents outdoors.

Source
    As for `safety.room-co2-steady`.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import CalendarCase, clock_text
from methodlint.judging.ask.room import (
    OUTDOOR_CO2,
    air_changes_during,
    air_volume,
    co2_into_room,
    outlets_with,
    steady_fraction,
    unstaffed_spans,
    vents_of_others,
)
from methodlint.judging.ask.rule import Finding, judge_limit, ppm, severity, show, visible

SUBJECT = "calendar"
CLASSES = ("stop", "caution")
NEEDS = ()

_CAUTION_ABOVE = 0.5
_METERING = 0.01


def applies(case: CalendarCase) -> bool:
    """Only a room with an open vent and a limit; what is missing is asked for each sequence."""
    room, limits = case.room, case.policy.exposure_limits
    known = room is not None and bool(outlets_with(room, False)) and air_volume(room) is not None
    return known and limits is not None and bool(limits.co2_long or limits.co2_short)


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Add up the flows of the benches that run when it starts."""
    room, limits, own = case.room, case.policy.exposure_limits, case.booking
    assert room is not None and limits is not None
    limit = limits.co2_long or limits.co2_short
    bench = own.names.get("instrument")
    others: dict[str, float] = {}
    shared = 0.0
    for other, over in case.calendar.overlapping("room", own):
        name = other.names.get("instrument", other.name)
        if name != bench and other.co2_flow > 0.0:
            others[name] = max(other.co2_flow, others.get(name, 0.0))
            shared = max(shared, over)
    listed = {vent.instrument: vent.mass_flow.si for vent in room.other_vents}
    # What the card says of this bench was counted with the other one already.
    counted = len(others) == 1 and listed.get(bench or "", 0.0) >= own.co2_flow
    if not others or counted or limit is None:
        return
    declared = {vent.instrument: vent.mass_flow.si for vent in vents_of_others(room, bench)}
    alone = co2_into_room(room, own.co2_flow, bench)
    more = sum(max(flow - declared.get(name, 0.0), 0.0) for name, flow in others.items())
    volume = air_volume(room)
    assert volume is not None
    outdoor = room.outdoor_co2.si if room.outdoor_co2 else OUTDOOR_CO2
    unstaffed = unstaffed_spans(room, own.begins, shared)
    rates = [air for air in air_changes_during(room, unstaffed, shared) if not isinstance(air, str)]
    if not rates:
        return
    worst = min(rates, key=lambda air: air.rate)
    level = steady_fraction(alone + more, volume, worst.rate, outdoor)
    single = steady_fraction(alone, volume, worst.rate, outdoor)
    together, itself = (
        judge_limit(one, limit.si, _METERING * one, "stop")
        or judge_limit(one, _CAUTION_ABOVE * limit.si, 0.0, "caution")
        for one in (level, single)
    )
    # What one bench reaches by itself is the matter of safety.room-co2-steady.
    if together is None or (itself and severity(itself.grade) <= severity(together.grade)):
        return
    yield case.finding(
        "sequence.begins",
        together.grade,
        f"CO2 in the room settles at {show(level, 'ppm')} {worst.words} while "
        f"{visible(bench or own.name)} and {', '.join(visible(name) for name in sorted(others))} "
        f"run from {clock_text(own.begins)} to {clock_text(own.at(shared))}: "
        f"{show(alone + more, 'mass flow')} together; the limit is {show(limit.si, 'ppm')} (margin "
        f"{show(limit.si - level, 'ppm')})",
        found=ppm(level),
        limit=ppm(limit.si),
        band=ppm(_METERING * level),
        possible=together.possible,
        remedy="run one after the other, or lead the vents outdoors",
        also=(case.at("room.outlets"),),
        cautions=("asphyxiation",),
    )
