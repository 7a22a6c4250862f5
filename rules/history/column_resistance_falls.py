"""A column does not lose flow resistance.

Reason
    A bed that settles leaves a void at its inlet, and a fitting that leaks lets part of the stream
    pass beside it: in both the pressure falls, and peaks get broad or double.

Unsound
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 218 bar}
      - {date: 2026-09-03, start_pressure: 216 bar}
      - {date: 2026-09-04, start_pressure: 217 bar}
      - {date: 2026-09-05, start_pressure: 217 bar}
      - {date: 2026-09-06, start_pressure: 218 bar}
      - {date: 2026-09-07, start_pressure: 203 bar}  # <- here
      - {date: 2026-09-08, start_pressure: 202 bar}
      - {date: 2026-09-09, start_pressure: 201 bar}
      - {date: 2026-09-10, start_pressure: 200 bar}
      - {date: 2026-09-11, start_pressure: 201 bar}
      - {date: 2026-09-12, start_pressure: 200 bar}

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
    Look for a leak at the fittings first. Test the column with its standard: plates that fell with
    the pressure speak of a void.

Source
    Slope of H. Theil (Proc. Kon. Ned. Akad. Wetensch. 53, 386, 1950) and P. K. Sen (J. Am. Stat.
    Assoc. 63, 1379, 1968), trend by M. G. Kendall (Biometrika 30, 81, 1938) and H. B. Mann
    (Econometrica 13, 245, 1945), cumulative sum of E. S. Page (Biometrika 41, 100, 1954). From 15 %
    on, or what the lab's policy sets (review.resistance_change): common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase, certainty, level_words, since_words
from methodlint.judging.ask.rule import Finding, Measure, bar, visible

SUBJECT = "history"
CLASSES = ("caution", "note")
NEEDS = ()
CAUSES = ("history.plates-fall",)


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Report every column whose resistance has fallen, and whether its plates fell with it."""
    for one in case.history.columns:
        change = one.fall
        if change is None:
            continue
        gone = change.has_returned
        size = change.largest if gone else change.size
        worse = [
            peak
            for peak in case.history.peaks
            if (peak.column, peak.bench) == (one.column, one.bench) and peak.plates_fall is not None
        ]
        what = (
            "its plates fell too: a void at the inlet is likely"
            if worse
            else ("a leak upstream of the column, or a void at its inlet")
        )
        now = "it has come back since" if gone else f"{bar(one.excess).value:.0f} bar at the start"
        yield case.finding(
            case.entry_at(change.began.entry),
            "note" if gone else "caution",
            f"the resistance of {visible(one.column)} on {visible(one.bench)} is "
            f"{level_words(size)} against its first {one.first} readings, {now}; {what} "
            f"({since_words(change)}; {certainty(change)})",
            found=Measure(100.0 * size, "%"),
            limit=Measure(-100.0 * case.history.thresholds.resistance_change, "%"),
            band=Measure(200.0 * change.noise, "%"),
            remedy="look for a leak at the fittings, then test the column",
            also=(case.entry_at(change.found.entry),),
        )
