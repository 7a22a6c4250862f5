"""A room that a release of CO2 can make dangerous has a CO2 monitor.

Reason
    CO2 has no smell and gathers low. Where a release passes 0.5 % somebody has to be warned, all
    the more when it happens with nobody there and the next person opens the door.

Unsound
    kind: room
    monitors: []  # <- here
    ---
    kind: supply
    place: inside

Sound
    kind: room
    monitors:
      - {gas: CO2, place: 30 cm above the floor, low: true, audible: true}
    ---
    kind: supply
    place: inside

Unsound, because nobody hears it
    kind: room
    monitors:
      - {gas: CO2, place: above the door, low: false, audible: false}  # <- here
    ---
    kind: supply
    place: inside

Sound, because the cylinder is outside, downstream of an excess-flow valve
    kind: room
    monitors: []
    ---
    kind: supply
    place: outside
    flow_stop: excess-flow valve
    flow_stop_place: upstream of the wall

Unsound, because its last test is too long ago
    kind: room
    monitors:
      - {gas: CO2, place: 30 cm above the floor, low: true, audible: true, tested: 2023-05-02}  # <- here

Sound, because it tests itself
    kind: room
    monitors:
      - {gas: CO2, place: 30 cm above the floor, low: true, tested: 2023-05-02, self_test: true}

Remedy
    Mount a CO2 monitor about 30 cm above the floor, where people enter and where the gas would
    gather; alarms at 5000 and 15 000 ppm are usual. Have it tested with gas every year, or as
    often as the policy says (`monitor_tested_within:`).

Source
    0.5 %: 29 CFR 1910.1000, 8 h; 4 %: NIOSH 1994. Place and alarm points: common practice, no
    source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import (
    AT_ONCE_DANGEROUS,
    WORTH_A_CAUTION,
    Monitor,
    room_exposure,
    unstaffed_spans,
)
from methodlint.judging.ask.rule import BatchCase, Finding, Grade, NotChecked, percent

SUBJECT = "batch"
CLASSES = ("stop", "caution")
NEEDS = ("supply.place", "room.volume")

_DAY = 86400.0
_TESTED_WITHIN = 365 * _DAY
_GRACE = 35 * _DAY
"""A yearly test, and the weeks that it takes to come round: common practice, no source."""


def applies(case: BatchCase) -> bool:
    """A room with an oxygen monitor only is another rule's."""
    monitors = case.room.monitors if case.room is not None else None
    return not monitors or any(monitor.gas == "CO2" for monitor in monitors)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Ask for a monitor that serves where a release would be worth a caution."""
    supply, room = case.supply, case.room
    assert supply is not None and room is not None
    release = room_exposure(supply, case.documents["room"], case.batch).release
    if release is None:
        yield case.not_checked("supply", "supply.full_mass")
        return
    if release <= WORTH_A_CAUTION:
        yield from _overdue(case)
        return
    if room.monitors is None:
        yield case.not_checked("room", "room.monitors", "write [] if there are none")
        return
    if room.monitors:
        yield from _useless(case, release)
        return
    begins = case.sequence.begins if case.sequence else None
    alone = unstaffed_spans(room, begins, case.batch.duration)
    grade: Grade = "stop" if alone or release > AT_ONCE_DANGEROUS else "caution"
    limit = AT_ONCE_DANGEROUS if release > AT_ONCE_DANGEROUS else WORTH_A_CAUTION
    unattended = f", and nobody is there {alone[0].words}" if alone else ""
    text = (
        "mount a CO2 monitor about 30 cm above the floor, with alarms at 5000 and 15 000 ppm that "
        "are heard outside the door"
    )
    yield case.finding(
        "room.monitors",
        grade,
        f"there is no CO2 monitor: a release would leave {100 * release:.1f} % CO2, the limit is "
        f"{100 * limit:.1f} %{unattended}",
        found=percent(release),
        limit=percent(limit),
        remedy=text,
        candidates=[
            case.candidate(
                text,
                case.change("room.monitors", [{"gas": "CO2", "low": True, "audible": True}]),
            )
        ],
        cautions=("asphyxiation",),
    )


def _days_overdue(case: BatchCase, monitor: Monitor) -> int:
    """Days since the last test, 0 while the lab's policy is kept."""
    if monitor.tested is None or case.last_day is None or monitor.self_test:
        return 0
    days = (case.last_day - monitor.tested).days
    allowed = case.policy.monitor_tested_within
    most = allowed.si if allowed is not None else _TESTED_WITHIN + _GRACE
    return days if days * _DAY > most else 0


def _overdue(case: BatchCase) -> Iterator[Finding]:
    """A monitor whose test is overdue, where a release is no danger by itself."""
    for index, monitor in enumerate((case.room and case.room.monitors) or ()):
        days = _days_overdue(case, monitor)
        if days:
            yield case.finding(
                f"room.monitors[{index}].tested",
                "caution",
                f"the {monitor.gas} monitor was tested {days} d ago: nobody knows that it alarms",
                remedy="have it tested with gas, and write the day as `tested:`",
            )


def _useless(case: BatchCase, release: float) -> Iterator[Finding]:
    """None of the CO2 monitors tells anybody in time."""
    wrong: list[tuple[int, str]] = []
    for index, monitor in enumerate((case.room and case.room.monitors) or ()):
        if monitor.gas != "CO2":
            continue
        days = _days_overdue(case, monitor)
        reasons = [
            words
            for words, holds in (
                ("is mounted high, and CO2 gathers low", monitor.low is False),
                ("has an alarm that nobody hears", monitor.audible is False),
                (f"was tested {days} d ago", days > 0),
            )
            if holds
        ]
        if not reasons:
            return
        wrong.append((index, " and ".join(reasons)))
    index, reason = wrong[0]
    yield case.finding(
        f"room.monitors[{index}]",
        "caution",
        f"the CO2 monitor {reason}: a release would leave {100 * release:.1f} % CO2",
        found=percent(release),
        limit=percent(WORTH_A_CAUTION),
        remedy="mount it low where it is heard, and have it tested every year",
        cautions=("asphyxiation",),
    )
