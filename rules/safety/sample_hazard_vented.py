"""Toxic or controlled samples do not leave by a vent into the room.

Reason
    What was injected leaves with the mobile phase: as droplets and vapour from a separator, and
    as everything that a source evaporates, through its exhaust or through its rough pump.

Unsound
    kind: method
    sample_hazard: toxic
    ---
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: false}  # <- here

Sound
    kind: method
    sample_hazard: toxic
    ---
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: true}

Sound, because a trap holds it back
    kind: method
    sample_hazard: toxic
    ---
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: false, trap: activated carbon}

Remedy
    Lead the outlet to an extraction, or fit a trap that holds the substance back and is logged.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import CO2_OUTLETS
from methodlint.judging.ask.rule import BatchCase, Finding, Grade, NotChecked

SUBJECT = "batch"
CLASSES = ("stop", "fault")
NEEDS = ("room.outlets",)

_CARRY_SAMPLE = CO2_OUTLETS | {"rough pump"}


def applies(case: BatchCase) -> bool:
    """Methods that declare their samples harmless ask nothing of the vent."""
    declared = [run.method.sample_hazard for run in case.runs.values() if run.method]
    harmless = bool(declared) and all(hazard == "none" for hazard in declared)
    return not harmless and case.room is not None and bool(case.room.outlets)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Look at outlets that end in the room without a trap."""
    room = case.room
    assert room is not None
    open_ones = [
        index
        for index, outlet in enumerate(room.outlets)
        if outlet.of in _CARRY_SAMPLE and outlet.ducted is False and outlet.trap is None
    ]
    if not open_ones:
        return
    names = " and ".join(room.outlets[index].name for index in open_ones)
    asks = any(room.outlets[index].of in CO2_OUTLETS for index in open_ones)
    ends = "ends" if len(open_ones) == 1 else "end"
    place = f"room.outlets[{open_ones[0]}].ducted"
    worst = ""
    for name, run in case.runs.items():
        hazard = run.method.sample_hazard if run.method else None
        if run.method is not None and hazard is None and asks:
            reason = f"{names} {ends} in the room; whether the samples of {name} are a hazard is not said"
            yield case.not_checked(case.at(run.documents["method"]), "method.sample_hazard", reason)
        if hazard in ("toxic", "controlled") and worst != "toxic":
            worst = hazard
    if not worst:
        return
    grade: Grade = "stop" if worst == "toxic" else "fault"
    text = f"lead {names} to an extraction, or fit a trap that holds the substance back"
    changes = [case.change(f"room.outlets[{index}].ducted", True) for index in open_ones]
    yield case.finding(
        place,
        grade,
        f"the samples are {worst}, and {names} {ends} in the room without a trap",
        remedy=text,
        candidates=[case.candidate(text, *changes)],
        cautions=("toxic",),
    )
