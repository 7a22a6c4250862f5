"""A room holds no more CO2 than it can take if all of it gets out.

Reason
    A burst disc or a broken line lets a whole cylinder into the room: 37.5 kg in 60 m3 leave
    29 % CO2 and 15 % oxygen. Four per cent is immediately dangerous, and it takes no more than
    75 g for every cubic metre. Outdoors a cylinder is harmless to the room only if something
    shuts the line ahead of the wall when it breaks.

Unsound
    kind: supply
    place: inside  # <- here
    ---
    kind: room
    volume: 60 m3
    risk_assessment: {on_file: false}

Unsound, because nothing stops a broken line
    kind: supply
    place: outside
    flow_stop: none  # <- here
    flow_stop_place: null
    ---
    kind: room
    risk_assessment: {on_file: false}

Sound
    kind: supply
    place: outside
    flow_stop: excess-flow valve
    flow_stop_place: upstream of the wall

Remedy
    Store the cylinder outside downstream of an excess-flow valve or a shut-off that a CO2 monitor
    operates; else have the release assessed, and a CO2 alarm at floor level.

Source
    Gas density: Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996). 4 %: NIOSH 1994,
    immediately dangerous to life or health. 0.5 %: 29 CFR 1910.1000, 8 h. Half the volume where
    gas pools below ground: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import (
    AT_ONCE_DANGEROUS,
    WORTH_A_CAUTION,
    effective_volume,
    mass_for_fraction,
    oxygen_left,
    release_fraction,
    released_into_room,
)
from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    Grade,
    NotChecked,
    percent,
    show,
)

SUBJECT = "batch"
CLASSES = ("stop", "caution", "note")
NEEDS = ("supply.place", "room.volume")


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Mix everything connected with the room's air."""
    supply, room = case.supply, case.room
    assert supply is not None and room is not None and room.volume is not None
    mass, volume = released_into_room(supply), effective_volume(case.documents["room"])
    if mass is None:
        yield case.not_checked("supply", "supply.full_mass")
        return
    assert volume is not None
    level = release_fraction(mass, volume)
    if level <= WORTH_A_CAUTION:
        return
    alarm = any(monitor.gas == "CO2" for monitor in room.monitors or ())
    filed = _filed(case)
    grade: Grade = "stop" if level > AT_ONCE_DANGEROUS else "caution"
    limit = AT_ONCE_DANGEROUS if grade == "stop" else WORTH_A_CAUTION
    assessed = ""
    if alarm and filed:
        grade, assessed = "note", "; the release is assessed on file and a CO2 alarm is there"
    half = ", half its volume because gas pools below ground" if room.below_ground else ""
    yield case.finding(
        "supply.place" if supply.place == "inside" else _place_of_stop(case),
        grade,
        f"all {show(mass, 'mass', 'kg')} connected would leave {_share(level)} CO2 and "
        f"{_share(oxygen_left(level))} oxygen in {show(room.volume.si, 'volume', 'm3')}{half}; "
        f"the limit is {_share(limit)} CO2"
        + ("" if supply.place == "inside" else ", and no stop ahead of the wall is declared")
        + assessed,
        found=percent(level),
        limit=percent(limit),
        remedy=_words(volume),
        candidates=_candidates(case, volume),
        also=(case.at("room.volume"),),
        cautions=("asphyxiation",),
    )


def _filed(case: BatchCase) -> bool:
    """Whether an assessment is on file on the day of the run."""
    filed = case.room.risk_assessment if case.room is not None else None
    if filed is None or not filed.on_file:
        return False
    return filed.date is None or case.as_of is None or filed.date <= case.as_of


def _share(fraction: float) -> str:
    return f"{100.0 * fraction:.1f} %"


def _place_of_stop(case: BatchCase) -> str:
    given = case.get("supply.flow_stop") is not None
    return "supply.flow_stop" if given else "supply.place"


def _words(volume: float) -> str:
    four, half = (mass_for_fraction(level, volume) for level in (AT_ONCE_DANGEROUS, 0.005))
    return (
        "store the cylinder outside downstream of an excess-flow valve ahead of the wall; this room takes "
        f"{show(four, 'mass', 'kg')} up to 4 % and {show(half, 'mass', 'kg')} up to 0.5 %, more "
        "only with a risk assessment on file and a CO2 alarm"
    )


def _candidates(case: BatchCase, volume: float) -> list[Candidate]:
    changes = [
        case.change("supply.place", "outside"),
        case.change("supply.flow_stop", "excess-flow valve"),
        case.change("supply.flow_stop_place", "upstream of the wall"),
    ]
    return [case.candidate(_words(volume), *changes)]
