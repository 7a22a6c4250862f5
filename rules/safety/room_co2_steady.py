"""CO2 vented into the room stays below the lab's exposure limit.

Reason
    What the regulator lets go has to go somewhere. Vented into the room it settles at a level
    that the flow, the room and its fresh air decide; at night the fresh air is often turned
    down. CO2 is harmful in itself, long before oxygen runs short.

Unsound
    kind: room
    volume: 28 m3
    air_changes: 0.2 1/h  # <- here
    outlets:
      - {name: separator, of: separator, ducted: false}
    ---
    kind: lab
    policy: {exposure_limits: {jurisdiction: house rule, co2_long: 5000 ppm}}

Sound
    kind: room
    volume: 45 m3
    air_changes: 6 1/h
    outlets:
      - {name: separator, of: separator, ducted: false}
    ---
    kind: lab
    policy: {exposure_limits: {jurisdiction: house rule, co2_long: 5000 ppm}}

Remedy
    Lead the vent outdoors or to an extraction; else keep to the flow or the air changes that the
    message gives.

Source
    Gas density: Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996). Limits differ between
    jurisdictions (8 h: 5000 ppm in 29 CFR 1910.1000 and EH40; 15 min: 15 000 or 30 000 ppm), so
    the lab sets its own; caution above half of it, and the band of 1 % for what the
    pump meters: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import (
    OUTDOOR_CO2,
    air_changes_during,
    air_changes_for_fraction,
    air_volume,
    co2_into_room,
    flow_for_fraction,
    highest_co2_flow,
    outlets_with,
    steady_fraction,
    unstaffed_spans,
)
from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    Judgement,
    NotChecked,
    judge_limit,
    ppm,
    show,
)

SUBJECT = "batch"
CLASSES = ("stop", "caution")
NEEDS = ("batch", "room.volume", "room.outlets")

_CAUTION_ABOVE = 0.5
_METERING = 0.01


def applies(case: BatchCase) -> bool:
    """Nothing settles in a room that no vent ends in."""
    room = case.room
    return room is None or bool(room.other_vents or outlets_with(room, False) or not room.outlets)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Take the worst of day and night against the lab's limit."""
    room = case.room
    assert room is not None and room.volume is not None
    volume = air_volume(room)
    assert volume is not None
    name = case.sequence.instrument if case.sequence else None
    flow = co2_into_room(room, highest_co2_flow(case.batch), name)
    if flow <= 0.0:
        return
    outdoor = room.outdoor_co2.si if room.outdoor_co2 else OUTDOOR_CO2
    begins = case.sequence.begins if case.sequence else None
    unstaffed = unstaffed_spans(room, begins, case.batch.duration)
    worst = None
    for air in air_changes_during(room, unstaffed, case.batch.duration):
        if isinstance(air, str):
            yield case.not_checked("room", air, "fresh air is never assumed")
        elif worst is None or air.rate < worst.rate:
            worst = air
    if worst is None:
        return
    level = steady_fraction(flow, volume, worst.rate, outdoor)
    says = (
        f"CO2 in the room settles at {show(level, 'ppm')} {worst.words}: "
        f"{show(flow, 'mass flow')} into {show(room.volume.si, 'volume', 'm3')} with "
        f"{show(worst.rate, 'air change rate')}"
    )
    limits = case.policy.exposure_limits
    limit = (limits.co2_long or limits.co2_short) if limits else None
    if limits is None or limit is None:
        reason = f"{says}; the lab sets no limit for CO2"
        yield case.not_checked("room", "lab.policy.exposure_limits.co2_long", reason)
        return
    verdict: Judgement | None = judge_limit(level, limit.si, _METERING * level, "stop")
    if verdict is None:
        verdict = judge_limit(level, _CAUTION_ABOVE * limit.si, 0.0, "caution")
    if verdict is None:
        return
    where = f" of {limits.jurisdiction}" if limits.jurisdiction else ""
    span = "8 h" if limits.co2_long else "15 min"
    target = _CAUTION_ABOVE * limit.si
    rate = air_changes_for_fraction(target, flow, volume, outdoor)
    most = flow_for_fraction(target, volume, worst.rate, outdoor)
    keeps = f"at least {show(rate, 'air change rate')} or at most {show(most, 'mass flow')} of CO2"
    yield case.finding(
        case.at(case.documents["room"], worst.path),
        verdict.grade,
        f"{says}; the limit{where} over {span} is {show(limit.si, 'ppm')} (margin "
        f"{show(limit.si - level, 'ppm')})",
        found=ppm(level),
        limit=ppm(limit.si),
        band=ppm(_METERING * level),
        possible=verdict.possible,
        remedy=f"lead the vents outdoors; in this room {keeps} for half the limit",
        candidates=_candidates(case, keeps),
        also=(case.at("room.outlets"),),
        cautions=("asphyxiation",),
    )


def _candidates(case: BatchCase, keeps: str) -> list[Candidate]:
    room = case.room
    assert room is not None
    open_ones = outlets_with(room, False)
    if not open_ones:
        return []
    names = " and ".join(outlet.name for _, outlet in open_ones)
    changes = [case.change(f"room.outlets[{index}].ducted", True) for index, _ in open_ones]
    text = f"lead the vent of {names} outdoors; without that {keeps} for half the limit"
    return [case.candidate(text, *changes)]
