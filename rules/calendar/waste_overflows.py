"""A waste vessel takes what every sequence brings before it is emptied.

Reason
    Each sequence by itself fits into the vessel as it stands. One after another they fill it, and
    the second night runs over the bench.

Unsound
    kind: room
    waste:
      - {name: separator bottle, capacity: 400 mL, level: 120 mL, contents: [methanol], vented: true}  # <- here
    ---
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null

Sound
    kind: room
    waste:
      - {name: separator bottle, capacity: 5 L, level: 0.4 L, contents: [methanol], vented: true}
    ---
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null

Remedy
    Empty the vessel before the sequence that the message names, and write its level anew.

Source
    Volumes are added up over the sequences of one week. That 80 % of a vessel may be filled where
    the lab sets no share: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import CalendarCase, clock_text, hand_words, names_of
from methodlint.judging.ask.rule import Finding, millilitres, show

SUBJECT = "calendar"
CLASSES = ("caution",)
NEEDS = ()


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Add its waste to what the sequences before it have brought."""
    for turn in case.calendar.vessels(case.booking):
        use = turn.use
        # What does not fit by itself is the matter of waste.bottle-overflows.
        if turn.alone or not turn.before or turn.clock is None:
            continue
        comes = turn.taken + use.first_need
        moment = case.booking.at(turn.clock)
        yield case.finding(
            f"room.waste[{use.number}].level",
            "caution",
            f"{use.name} is full about {clock_text(moment)}{hand_words(case, moment)}: "
            f"{_ml(turn.taken)} come from {names_of(turn.before)} before {case.booking.name}, which "
            f"brings {_ml(use.first_need)}; there is room for {_ml(use.usable)}: "
            f"{_ml(comes - use.usable)} too much",
            found=millilitres(comes),
            limit=millilitres(use.usable),
            remedy=f"empty it before {clock_text(case.booking.begins)}",
            also=(case.at("sequence.begins"),),
        )


def _ml(volume: float) -> str:
    return show(volume, "volume", "mL")
