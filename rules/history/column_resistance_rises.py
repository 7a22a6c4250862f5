"""A column keeps the flow resistance that it had at first.

Reason
    A frit or the top of the bed that clogs raises the pressure from run to run, long before a limit
    is reached. Readings of many weeks tell it from the scatter of a single one, and from a method
    or an outlet pressure that has changed.

Unsound
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 218 bar}
      - {date: 2026-09-03, start_pressure: 216 bar}
      - {date: 2026-09-04, start_pressure: 217 bar}
      - {date: 2026-09-05, start_pressure: 217 bar}
      - {date: 2026-09-06, start_pressure: 218 bar}
      - {date: 2026-09-07, start_pressure: 232 bar}  # <- here
      - {date: 2026-09-08, start_pressure: 234 bar}
      - {date: 2026-09-09, start_pressure: 236 bar}
      - {date: 2026-09-10, start_pressure: 238 bar}
      - {date: 2026-09-11, start_pressure: 239 bar}
      - {date: 2026-09-12, start_pressure: 240 bar}

Sound
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 218 bar}
      - {date: 2026-09-03, start_pressure: 216 bar}
      - {date: 2026-09-04, start_pressure: 217 bar}
      - {date: 2026-09-05, start_pressure: 217 bar}
      - {date: 2026-09-06, start_pressure: 218 bar}
      - {date: 2026-09-07, start_pressure: 217 bar}
      - {date: 2026-09-08, start_pressure: 219 bar}
      - {date: 2026-09-09, start_pressure: 216 bar}
      - {date: 2026-09-10, start_pressure: 217 bar}
      - {date: 2026-09-11, start_pressure: 218 bar}
      - {date: 2026-09-12, start_pressure: 216 bar}

Remedy
    Look for the cause in this order: injector rotor and tubes, the inlet frit or guard, then the
    column. Backflush only a column whose maker allows it.

Source
    Slope of H. Theil (Proc. Kon. Ned. Akad. Wetensch. 53, 386, 1950) and P. K. Sen (J. Am. Stat.
    Assoc. 63, 1379, 1968), trend by M. G. Kendall (Biometrika 30, 81, 1938) and H. B. Mann
    (Econometrica 13, 245, 1945), cumulative sum of E. S. Page (Biometrika 41, 100, 1954). From 15 %
    on, or what the lab's policy sets (review.resistance_change), and never on fewer than three
    readings on two days: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase, certainty, level_words, since_words
from methodlint.judging.ask.rule import Finding, Measure, bar, visible

SUBJECT = "history"
CLASSES = ("caution", "note")
NEEDS = ()


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Report every column whose resistance has risen, with what has come back as a note."""
    for one in case.history.columns:
        change = one.rise
        if change is None:
            continue
        gone = change.has_returned
        size = change.largest if gone else change.size
        now = (
            "; it has come back since"
            if gone
            else f", {bar(one.excess).value:.0f} bar at the start"
        )
        yield case.finding(
            case.entry_at(change.began.entry),
            "note" if gone else "caution",
            f"the resistance of {visible(one.column)} on {visible(one.bench)} is "
            f"{level_words(size)} against its first {one.first} readings{now} "
            f"({since_words(change)}; {certainty(change)})",
            found=Measure(100.0 * size, "%"),
            limit=Measure(100.0 * case.history.thresholds.resistance_change, "%"),
            band=Measure(200.0 * change.noise, "%"),
            remedy="look at the injector and the tubes first, then at the inlet frit or the guard",
            also=(case.entry_at(change.found.entry),),
        )
