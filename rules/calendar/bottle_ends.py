"""A bottle is enough for every sequence that draws from it.

Reason
    Each sequence by itself is served by the bottle as it was filled. One after another they empty
    it, and the pump draws air in the middle of the second night.

Unsound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 220 mL, dead_volume: 60 mL}  # <- here
    ---
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null

Sound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}
    ---
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null

Remedy
    Fill the bottle before the sequence that the message names. A bottle that is filled up every day
    says so: `filled:` with the day, or a pause with `refills:` in the sequence.

Source
    Volumes are added up over the sequences of one week, or from the day on which the bottle was
    filled, else opened. A band of 2 % for what a pump delivers: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import CalendarCase, clock_text, hand_words, names_of
from methodlint.judging.ask.rule import Finding, judge_limit, millilitres, show

SUBJECT = "calendar"
CLASSES = ("fault", "caution")
NEEDS = ()


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Draw its liquids from what the sequences before it have left in each bottle."""
    for turn in case.calendar.bottles(case.booking):
        use = turn.use
        # What the sequence cannot get by itself is the matter of solvent.reservoir-too-small.
        if turn.alone or not turn.before or turn.early is None:
            continue
        need = turn.taken + use.first_need
        band = use.band * need
        verdict = judge_limit(need, use.usable, band, "fault" if use.dated else "caution")
        if verdict is None:
            verdict = judge_limit(need * (1.0 + use.band), use.usable, 0.0, "caution")
        if verdict is None:
            continue
        moment = case.booking.at(turn.clock if turn.clock is not None else turn.early)
        over = need - use.usable
        yield case.finding(
            f"solvents.bottles[{use.number}].fill",
            verdict.grade,
            f"{use.name} {'runs' if over > band else 'may run'} dry about {clock_text(moment)}"
            f"{hand_words(case, moment)}: {_ml(turn.taken)} are taken by {names_of(turn.before)} before "
            f"{case.booking.name}, which takes {_ml(use.first_need)}; {_ml(use.usable)} can be "
            f"drawn: {_ml(abs(over))} {'short' if over > 0.0 else 'left'} (band {_ml(band)})",
            found=millilitres(need),
            limit=millilitres(use.usable),
            band=millilitres(band),
            possible=over <= band,
            remedy=f"fill it before {clock_text(case.booking.begins)}, and write filled: with the "
            "day",
            also=(case.at("sequence.begins"),),
        )


def _ml(volume: float) -> str:
    return show(volume, "volume", "mL")
