"""A room that CO2 can make dangerous is watched by a CO2 monitor, not by an oxygen monitor.

Reason
    An oxygen monitor alarms at 19.5 %. The air has that much left when 6.7 % of it is displaced:
    67 000 ppm CO2, far above the 40 000 ppm that are immediately dangerous. The alarm would come
    after the harm.

Unsound
    kind: room
    monitors:
      - {gas: O2, place: above the bench, audible: true}  # <- here
    ---
    kind: supply
    place: inside

Sound
    kind: room
    monitors:
      - {gas: O2, place: above the bench, audible: true}
      - {gas: CO2, place: 30 cm above the floor, low: true, audible: true}
    ---
    kind: supply
    place: inside

Sound, because no CO2 to speak of can get into the room
    kind: room
    monitors:
      - {gas: O2, place: above the bench, audible: true}

Remedy
    Mount a CO2 monitor low on the wall, with an alarm that is heard; the oxygen monitor may stay.

Source
    EIGA/IGC Doc 150/08 (CO2 harms independently of oxygen); 19.5 %: 29 CFR 1910.146; 40 000 ppm:
    NIOSH 1994.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import (
    AT_ONCE_DANGEROUS,
    OXYGEN_LEAST,
    WORTH_A_CAUTION,
    foreign_gas_at_oxygen,
    room_exposure,
)
from methodlint.judging.ask.rule import BatchCase, Finding, ppm, show

SUBJECT = "batch"
CLASSES = ("stop",)
NEEDS = ("supply.place", "room.volume")


def applies(case: BatchCase) -> bool:
    """Only a room with an oxygen monitor and no CO2 monitor."""
    gases = {monitor.gas for monitor in (case.room.monitors or ())} if case.room else set()
    return gases == {"O2"}


def judge(case: BatchCase) -> Iterator[Finding]:
    """Only where what can get into the room exceeds a limit."""
    supply, room = case.supply, case.room
    assert supply is not None and room is not None
    exposure = room_exposure(supply, case.documents["room"], case.batch)
    limits = case.policy.exposure_limits
    long = limits.co2_long.si if limits and limits.co2_long else None
    release, steady = exposure.release, exposure.steady
    said = []
    if release is not None and release > WORTH_A_CAUTION:
        said.append(f"a release would leave {show(release, 'ppm')} CO2")
    if steady is not None and long is not None and steady > long:
        said.append(f"the vents hold {show(steady, 'ppm')} CO2")
    if not said:
        return
    blind = foreign_gas_at_oxygen()
    first = next(i for i, monitor in enumerate(room.monitors or ()) if monitor.gas == "O2")
    text = "mount a CO2 monitor low on the wall, with an alarm that is heard"
    yield case.finding(
        f"room.monitors[{first}]",
        "stop",
        f"the room has an oxygen monitor only: oxygen reaches {100 * OXYGEN_LEAST:.1f} % when "
        f"{100 * blind:.1f} % of the air is displaced, that is {show(blind, 'ppm')} CO2, above "
        f"the {show(AT_ONCE_DANGEROUS, 'ppm')} that are immediately dangerous; "
        + " and ".join(said),
        found=ppm(blind),
        limit=ppm(AT_ONCE_DANGEROUS),
        remedy=text,
        candidates=[
            case.candidate(
                text,
                case.change(
                    f"room.monitors[{len(room.monitors or ())}]",
                    {"gas": "CO2", "low": True, "audible": True},
                    insert=True,
                ),
            )
        ],
        cautions=("asphyxiation",),
    )
