"""Hydrogen for a flame is shut off when the flame goes out, and cannot gather in the room.

Reason
    A flame that goes out leaves hydrogen flowing, unseen and without smell. It burns from 4 % in
    air at the least spark, and in SFC a surge of CO2 or liquid puts a flame out easily. A cylinder
    that empties into a closed room is enough to fill it beyond that limit.

Unsound
    kind: method
    detectors: [{type: FID}]
    ---
    kind: instrument
    fid: {flame_out_shutoff: false, hydrogen_from: generator}  # <- here

Sound
    kind: method
    detectors: [{type: FID}]
    ---
    kind: instrument
    fid: {flame_out_shutoff: true, hydrogen_from: generator}

Remedy
    Use a detector whose hydrogen valve closes when the flame goes out. Keep the cylinder outdoors
    or in a ventilated cabinet, or have a hydrogen detector that shuts the gas off; local codes
    decide.

Source
    Lower flammability limit of hydrogen 4 % in air: NFPA 55 and handbooks (unverified). An
    unventilated room has less than one air change an hour: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, show

SUBJECT = "run"
CLASSES = ("stop",)
NEEDS = ("method.detectors", "instrument.fid.flame_out_shutoff")

_LEAST_AIR_CHANGES = 1.0 / 3600.0
_HANDLING = ("flammable",)


def applies(case: RunCase) -> bool:
    """The method burns hydrogen."""
    return case.method is not None and any(d.type == "FID" for d in case.method.detectors)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at the valve, and at the room where hydrogen is in it."""
    fid = case.get("instrument.fid")
    if not fid.flame_out_shutoff:
        yield case.finding(
            "instrument.fid.flame_out_shutoff",
            "stop",
            "hydrogen flows on when the flame goes out: nothing shuts it off",
            remedy="do not light the flame before a valve closes by itself when it goes out",
            cautions=_HANDLING,
        )
    if "room" not in case.documents or fid.hydrogen_from == "line from outdoors":
        return
    rates = (case.get("room.air_changes"), case.get("room.air_changes_at_night"))
    known = [rate for rate in rates if rate is not None]
    if not known:
        yield case.not_checked("room", "room.air_changes", "hydrogen is in the room")
        return
    slowest = min(known, key=lambda rate: float(rate.si))
    if slowest.si < _LEAST_AIR_CHANGES and not fid.hydrogen_monitor:
        key = "air_changes" if slowest is rates[0] else "air_changes_at_night"
        yield case.finding(
            f"room.{key}",
            "stop",
            f"hydrogen is in a room with {show(slowest.si, 'air change rate')}, less than one an "
            "hour, and no hydrogen detector shuts it off: a leak gathers and burns from 4 %",
            remedy="take hydrogen from outdoors, or have a hydrogen detector shut it off",
            also=(case.at("instrument.fid"),),
            cautions=_HANDLING,
        )
