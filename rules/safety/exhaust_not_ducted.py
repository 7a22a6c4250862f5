"""Every outlet of the instrument leads outdoors or to an extraction.

Reason
    CO2 leaves by the separator with solvent vapour, nitrogen by the source, oil and solvent by
    the rough pump, and a waste bottle gives off what it holds. Each is a line of its own and each
    can end behind the bench; nitrogen takes the oxygen away without any sign.

Unsound
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: false}  # <- here
      - {name: source exhaust, of: MS exhaust, ducted: true}
      - {name: rough pump, of: rough pump, ducted: true}

Sound
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: true}
      - {name: source exhaust, of: MS exhaust, ducted: true}
      - {name: rough pump, of: rough pump, ducted: true}

Unsound, because a fan draws it and nobody has measured the draught
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: true, draught: fan}  # <- here
      - {name: source exhaust, of: MS exhaust, ducted: true}
      - {name: rough pump, of: rough pump, ducted: true}

Sound, because it leaves by itself
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: true, draught: passive}
      - {name: source exhaust, of: MS exhaust, ducted: true}
      - {name: rough pump, of: rough pump, ducted: true}

Remedy
    Lead the outlet that the message names outdoors or to an extraction, with a line of its own.
    Have the draught of a fan measured every year, and the fan wired to an alarm or a stop.

Source
    Common practice, no source; oxygen of 19.5 % at least: 29 CFR 1910.146.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import (
    OXYGEN_LEAST,
    Outlet,
    air_changes_during,
    highest_co2_flow,
    oxygen_with_vented_gas,
    unlisted_vent,
    unstaffed_spans,
)
from methodlint.judging.ask.rule import BatchCase, Candidate, Finding, Grade, NotChecked, show

SUBJECT = "batch"
CLASSES = ("stop", "caution")
NEEDS = ("room.outlets",)
CAUSES = ("safety.room-co2-steady", "safety.room-vapour-steady")

_VERIFIED_WITHIN = 400
"""Days; a yearly measurement of an extraction is common practice, no source."""

_CARRIES = {
    "separator": "CO2 with solvent vapour",
    "MS exhaust": "nitrogen, CO2 and all the solvent of the source",
    "rough pump": "oil mist and solvent",
    "waste bottle": "CO2 and solvent vapour",
    "collector": "CO2 with solvent vapour and droplets",
    "other": "gas of the instrument",
}


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Ask for each outlet on its own."""
    room = case.room
    assert room is not None
    together = _all_at_once(case)
    for index, outlet in enumerate(room.outlets):
        place = f"room.outlets[{index}].ducted"
        if outlet.ducted is None:
            reason = f"whether {outlet.name} leads outdoors is not said"
            yield case.not_checked(f"room.outlets[{index}]", place, reason)
        if outlet.ducted is not False:
            yield from _draught(case, index, outlet)
            continue
        grade: Grade = "caution"
        more = ""
        if outlet.of == "MS exhaust":
            oxygen = _oxygen(case)
            if isinstance(oxygen, str):
                yield case.not_checked(f"room.outlets[{index}]", oxygen)
            elif oxygen is not None:
                more = f"; oxygen in the room falls to {100 * oxygen:.1f} %"
                grade = "stop" if oxygen < OXYGEN_LEAST else "caution"
                more += ", below 19.5 %" if grade == "stop" else ""
        elif outlet.of == "separator" and (flow := highest_co2_flow(case.batch)) > 0.0:
            more = f", up to {show(flow, 'mass flow')} of CO2"
        text = f"lead {outlet.name} outdoors or to an extraction, with a line of its own"
        yield case.finding(
            place,
            grade,
            f"{outlet.name} ends in the room and carries {_CARRIES[outlet.of]}{more}",
            remedy=text,
            candidates=[case.candidate(text, case.change(place, True)), *together],
            cautions=("asphyxiation", "flammable"),
        )
    yield from _unlisted(case)


def _draught(case: BatchCase, index: int, outlet: Outlet) -> Iterator[Finding]:
    """A duct that a fan draws: was its draught measured, and who learns that it fails?"""
    if outlet.draught != "fan":
        return
    known, lacks = outlet.flow_verified, []
    age = (case.last_day - known).days if known is not None and case.last_day is not None else 0
    if known is None:
        lacks.append("its draught was never measured")
    elif age > _VERIFIED_WITHIN:
        lacks.append(f"its draught was measured {age} d ago")
    if outlet.interlock is False:
        lacks.append("nothing stops or alarms when the fan fails")
    if lacks:
        key = "draught" if known is None else "flow_verified"
        yield case.finding(
            f"room.outlets[{index}].{key}",
            "caution",
            f"{outlet.name} leaves by a fan: {' and '.join(lacks)}",
            remedy="have the draught measured every year, and the fan wired to an alarm or a stop",
            cautions=("asphyxiation", "flammable"),
        )


def _all_at_once(case: BatchCase) -> list[Candidate]:
    """Several open outlets led away together; one alone may leave the room's air as it is."""
    outlets = case.room.outlets if case.room is not None else ()
    open_ones = [index for index, outlet in enumerate(outlets) if outlet.ducted is False]
    if len(open_ones) < 2:
        return []
    names = " and ".join(outlets[index].name for index in open_ones)
    changes = [case.change(f"room.outlets[{index}].ducted", True) for index in open_ones]
    return [case.candidate(f"lead {names} outdoors or to an extraction, each by itself", *changes)]


def _unlisted(case: BatchCase) -> Iterator[NotChecked]:
    """CO2 leaves somewhere, a mass spectrometer has two outlets more; none may be forgotten."""
    room = case.room
    assert room is not None
    reason = unlisted_vent(room, case.instrument)
    if reason:
        yield case.not_checked("room.outlets", "room.outlets", reason)
    used = any(
        detector.type == "MS"
        for run in case.runs.values()
        for detector in (run.method.detectors if run.method else ())
    )
    listed = {outlet.of for outlet in room.outlets}
    if used and "rough pump" not in listed:
        yield case.not_checked("room.outlets", "room.outlets", "the rough pump is not listed")
    if used and "MS exhaust" not in listed and not case.get("instrument.ms.exhaust_ducted"):
        yield case.not_checked("room.outlets", "room.outlets", "the MS exhaust is not listed")


def _oxygen(case: BatchCase) -> float | str | None:
    """Oxygen left beside the source's nitrogen; the figure that lacks; None for air."""
    room, gas = case.room, case.get("instrument.ms.gas")
    assert room is not None
    if gas == "air":
        return None
    flow = case.get("instrument.ms.gas_flow")
    if flow is None:
        return "instrument.ms.gas_flow"
    if room.volume is None:
        return "room.volume"
    begins = case.sequence.begins if case.sequence else None
    unstaffed = unstaffed_spans(room, begins, case.batch.duration)
    rates = list(air_changes_during(room, unstaffed, case.batch.duration))
    lacking = [rate for rate in rates if isinstance(rate, str)]
    if lacking:
        return lacking[0]
    slowest = min(rate.rate for rate in rates if not isinstance(rate, str))
    return oxygen_with_vented_gas(flow.si, room.volume.si, slowest)
