"""A sequence that runs with nobody there stops by itself when something fails.

Reason
    At night nobody sees the pressure fall, smells the leak or empties the waste. What stops the
    instrument then is what has been armed beforehand.

Unsound
    kind: sequence
    begins: 2026-11-24T16:00
    ---
    kind: instrument
    trips: {low_pressure_stop: false}  # <- here

Sound
    kind: sequence
    begins: 2026-11-24T16:00

Sound, because somebody is there day and night
    kind: sequence
    begins: 2026-11-24T16:00
    ---
    kind: instrument
    trips: {low_pressure_stop: false}
    ---
    kind: room
    staffed: always

Remedy
    Arm what the message names, or run within the staffed hours.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import unstaffed_spans, weekend_not_stated
from methodlint.judging.ask.rule import BatchCase, Finding, Measure, NotChecked

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("batch", "sequence.begins", "room.staffed", "instrument.trips")

_TRIPS = {
    "low_pressure_stop": "stop at low pressure",
    "leak_sensor": "leak sensor",
    "co2_alarm_interlock": "stop by the CO2 alarm",
    "waste_level": "stop at full waste",
}


def applies(case: BatchCase) -> bool:
    """Where somebody is there all the time, nothing runs unattended."""
    return case.room is None or case.room.staffed != "always" or bool(case.room.holidays)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Lay the clock beside the staffed hours, then count the trips."""
    room, sequence = case.room, case.sequence
    assert room is not None and sequence is not None
    spans = unstaffed_spans(room, sequence.begins, case.batch.duration)
    if spans is None:
        yield case.not_checked("room.staffed", "room.staffed", "the hours cannot be read as HH:MM")
        return
    weekend = None
    if not spans:
        weekend = weekend_not_stated(room, sequence.begins, case.batch.duration)
        if weekend is None:
            return
    missing = [key for key in _TRIPS if not _armed(case, key)]
    unknown = [key for key in missing if case.get(f"instrument.trips.{key}") is None]
    for key in unknown if spans else ():
        yield case.not_checked("instrument.trips", f"instrument.trips.{key}")
    lacking = [key for key in missing if key not in unknown]
    if not lacking:
        return
    words = ", ".join(_TRIPS[key] for key in lacking)
    hours = sum((span.ends - span.begins).total_seconds() for span in spans) / 3600.0
    if weekend is not None:
        said = (
            f"the sequence runs on {weekend:%A} {weekend}, and the room card does not say on which "
            "days its staffed hours hold; if nobody is there, it runs"
        )
    else:
        more = ", and more" if len(spans) > 1 else ""
        said = f"{hours:.1f} h of the sequence run with nobody there ({spans[0].words}{more})"
    text = f"arm these: {words}"
    days = "; or write the days of the staffed hours (days: [Monday, ...])" if weekend else ""
    changes = [case.change(f"instrument.trips.{key}", True) for key in lacking]
    yield case.finding(
        f"instrument.trips.{lacking[0]}",
        "caution",
        f"{said} without: {words}",
        found=Measure(len(lacking)),
        limit=Measure(0),
        remedy=text + days,
        candidates=[case.candidate(text, *changes)],
        also=(case.at("sequence.begins"), case.at("room.staffed")),
        cautions=("pressure",),
    )


def _armed(case: BatchCase, key: str) -> bool:
    """Whether a trip, or another thing that does its work, is declared."""
    if case.get(f"instrument.trips.{key}"):
        return True
    if key == "co2_alarm_interlock":
        return bool(case.get("supply.flow_stop") == "monitor-operated shut-off")
    if key == "waste_level" and case.room is not None and case.room.waste:
        return all(vessel.drain for vessel in case.room.waste)
    return False
