"""The waste vessel holds everything that the sequence sends into it.

Reason
    Modifier, makeup, washes and purges add up over a night. A vessel that runs over puts
    flammable liquid on the floor; one with a level sensor stops the sequence.

Unsound
    kind: room
    waste:
      - {name: separator bottle, capacity: 500 mL, level: 350 mL}  # <- here

Sound
    kind: room
    waste:
      - {name: separator bottle, capacity: 5 L, level: 350 mL}

Remedy
    Empty the vessel before the start.

Source
    Volumes are added up from method and sequence, less what is collected. Four fifths of the capacity, where the lab sets
    no other part: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, When, litres, show
from methodlint.judging.ask.sequence import fills_of, part_filled

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("batch", "room.waste")


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare what runs into each vessel with the room left in it."""
    part = part_filled(case)
    fills, missing = fills_of(case)
    for where in missing:
        yield case.not_checked(where.rpartition(".")[0], where)
    for fill in fills:
        if fill.volume <= fill.room_left:
            continue
        number = fill.full
        when = f"during injection {number}" if number else "before the first injection"
        streams = ", ".join(
            f"{show(volume, 'volume')} {name}" for name, volume in fill.streams.items() if volume
        )
        at = f"room.waste[{fill.index}]"
        yield case.finding(
            f"{at}.level",
            "fault",
            f"'{fill.vessel.name}' is full {when}: {show(fill.volume, 'volume')} run into it "
            f"({streams}), {show(max(fill.room_left, 0.0), 'volume')} are left up to "
            f"{100 * part:.0f} % of its capacity: "
            f"{show(fill.volume - fill.room_left, 'volume')} too much",
            found=litres(fill.volume),
            limit=litres(max(fill.room_left, 0.0)),
            when=When(injection=number or None),
            remedy="empty it before the start",
            candidates=[
                case.candidate("empty it before the start", case.change(f"{at}.level", "0 mL"))
            ],
            also=(case.at(f"{at}.capacity"),),
            cautions=("flammable",),
        )
