"""A column keeps the plates that it had at first.

Reason
    Plates fall when a void opens, when the bed fouls or when the phase is lost. A suitability test
    that still passes hides that the next one will not.

Unsound
    kind: logbook
    entries:
      - {date: 2026-09-01, plates: 9000, peak: first peak}
      - {date: 2026-09-02, plates: 9100, peak: first peak}
      - {date: 2026-09-03, plates: 8900, peak: first peak}
      - {date: 2026-09-04, plates: 9050, peak: first peak}
      - {date: 2026-09-05, plates: 9000, peak: first peak}
      - {date: 2026-09-06, plates: 8950, peak: first peak}
      - {date: 2026-09-07, plates: 6300, peak: first peak}  # <- here
      - {date: 2026-09-08, plates: 6200, peak: first peak}
      - {date: 2026-09-09, plates: 6100, peak: first peak}
      - {date: 2026-09-10, plates: 6000, peak: first peak}

Sound
    kind: logbook
    entries:
      - {date: 2026-09-01, plates: 9000, peak: first peak}
      - {date: 2026-09-02, plates: 9100, peak: first peak}
      - {date: 2026-09-03, plates: 8900, peak: first peak}
      - {date: 2026-09-04, plates: 9050, peak: first peak}
      - {date: 2026-09-05, plates: 9000, peak: first peak}
      - {date: 2026-09-06, plates: 8950, peak: first peak}
      - {date: 2026-09-07, plates: 9100, peak: first peak}
      - {date: 2026-09-08, plates: 8900, peak: first peak}
      - {date: 2026-09-09, plates: 9000, peak: first peak}
      - {date: 2026-09-10, plates: 9050, peak: first peak}

Remedy
    Test the column with its standard; look at the fittings and the injection (volume, diluent)
    before it is changed.

Source
    Slope of H. Theil (Proc. Kon. Ned. Akad. Wetensch. 53, 386, 1950) and P. K. Sen (J. Am. Stat.
    Assoc. 63, 1379, 1968), trend by M. G. Kendall (Biometrika 30, 81, 1938) and H. B. Mann
    (Econometrica 13, 245, 1945), cumulative sum of E. S. Page (Biometrika 41, 100, 1954). From a
    loss of 25 % on, or what the lab's policy sets (review.plates_loss): common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase, certainty, level_words, since_words
from methodlint.judging.ask.rule import Finding, Measure, visible

SUBJECT = "history"
CLASSES = ("caution", "note")
NEEDS = ()


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Report every peak whose plates have fallen."""
    for peak in case.history.peaks:
        change = peak.plates_fall
        if change is None:
            continue
        gone = change.has_returned
        size = change.largest if gone else change.size
        tails = ""
        if peak.tailing is not None and peak.tailing[1] > 1.15 * peak.tailing[0]:
            tails = f"; its tailing went from {peak.tailing[0]:.2f} to {peak.tailing[1]:.2f}"
        back = "; they have come back since" if gone else ""
        yield case.finding(
            case.entry_at(change.began.entry),
            "note" if gone else "caution",
            f"the plates of {visible(peak.name)} ({visible(peak.method)} on {visible(peak.column)}) "
            f"are {level_words(size)} against {peak.first_plates:.0f} at first{tails}{back} "
            f"({since_words(change)}; {certainty(change)})",
            found=Measure(100.0 * size, "%"),
            limit=Measure(-100.0 * case.history.thresholds.plates_loss, "%"),
            band=Measure(200.0 * change.noise, "%"),
            remedy="test the column with its standard; look at fittings and injection first",
            also=(case.entry_at(change.found.entry),),
        )
