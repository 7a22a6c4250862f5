"""The CO2 cylinder is enough for every sequence that draws from it.

Reason
    Each sequence by itself is served by the cylinder as it was weighed. Together they empty it: what
    Friday takes is missing on Monday, and what one bench takes is missing at the other.

Unsound
    kind: supply
    net_mass: 9.6 kg  # <- here
    ---
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null

Sound
    kind: supply
    net_mass: 31 kg
    ---
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null

Remedy
    Change the cylinder before the sequence that the message names, or after the injection that it
    gives. Weigh the cylinder again and write `net_mass` and `weighed` anew after a change.

Source
    As for `supply.cylinder-runs-out`. Sequences count in the order of their starts, those before
    the day of the weighing do not: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import CalendarCase, clock_text, hand_words, names_of
from methodlint.judging.ask.rule import Finding, When, judge_limit, kilograms, show

SUBJECT = "calendar"
CLASSES = ("fault", "caution")
NEEDS = ()


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Draw its CO2 from what the sequences before it have left."""
    turn = case.calendar.cylinder(case.booking)
    # A cylinder that the sequence empties by itself is the matter of supply.cylinder-runs-out.
    if turn is None or turn.alone or not turn.before or not turn.empties:
        return
    end = turn.end
    band = end.short_at_worst - end.short
    verdict = judge_limit(end.demand, end.usable.expected, band, "fault")
    if verdict is None:
        return
    safe = end.not_before or 0
    total = len(case.booking.draw.starts) if case.booking.draw is not None else 0
    moment = case.booking.at(end.clock) if end.clock is not None else None
    which = "the cylinder" if turn.number == 1 else f"cylinder {turn.number} of the calendar"
    when = (
        f"its liquid ends about {clock_text(moment)}{hand_words(case, moment)}"
        if moment is not None
        else "its liquid may end before the last injection"
    )
    latest = f", or after injection {safe} of {total} at the latest" if safe else ""
    yield case.finding(
        "supply.net_mass",
        verdict.grade,
        f"{which} does not last to the end of {case.booking.name}: {_kg(turn.taken)} are taken "
        f"by {names_of(turn.before)} before it, it takes {_kg(end.demand)} and finds "
        f"{_kg(max(end.usable.expected, 0.0))} that can be drawn; {when}, "
        f"{_kg(abs(end.short))} {'short' if end.short > 0.0 else 'in reserve'} (band {_kg(band)})",
        found=kilograms(turn.taken + end.demand),
        limit=kilograms(turn.taken + end.usable.expected),
        band=kilograms(band),
        when=When(injection=safe + 1, last_injection=total) if total else None,
        possible=verdict.possible,
        remedy=f"change the cylinder before {clock_text(case.booking.begins)}{latest}",
        also=(case.at("sequence.begins"),),
    )


def _kg(mass: float) -> str:
    return show(mass, "mass", "kg")
