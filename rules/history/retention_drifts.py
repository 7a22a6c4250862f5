"""A peak keeps its retention time.

Reason
    In SFC a retention time follows the density of the mobile phase: an outlet pressure or an oven
    that reads otherwise moves it without any fault of the column. Where the density has not
    changed, the column, the modifier or the additive has.

Unsound
    kind: logbook
    entries:
      - {date: 2026-09-01, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-02, retention_time: 2.51 min, peak: first peak}
      - {date: 2026-09-03, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-04, retention_time: 2.49 min, peak: first peak}
      - {date: 2026-09-05, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-06, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-07, retention_time: 2.62 min, peak: first peak}  # <- here
      - {date: 2026-09-08, retention_time: 2.63 min, peak: first peak}
      - {date: 2026-09-09, retention_time: 2.63 min, peak: first peak}
      - {date: 2026-09-10, retention_time: 2.64 min, peak: first peak}

Sound
    kind: logbook
    entries:
      - {date: 2026-09-01, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-02, retention_time: 2.51 min, peak: first peak}
      - {date: 2026-09-03, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-04, retention_time: 2.49 min, peak: first peak}
      - {date: 2026-09-05, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-06, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-07, retention_time: 2.51 min, peak: first peak}
      - {date: 2026-09-08, retention_time: 2.50 min, peak: first peak}
      - {date: 2026-09-09, retention_time: 2.49 min, peak: first peak}
      - {date: 2026-09-10, retention_time: 2.50 min, peak: first peak}

Remedy
    With the density: bring outlet pressure and oven back to what they read at first. Without it:
    look at modifier share, additive and the age of the bottle, then at the column.

Source
    Slope of H. Theil (Proc. Kon. Ned. Akad. Wetensch. 53, 386, 1950) and P. K. Sen (J. Am. Stat.
    Assoc. 63, 1379, 1968), trend by M. G. Kendall (Biometrika 30, 81, 1938) and H. B. Mann
    (Econometrica 13, 245, 1945), cumulative sum of E. S. Page (Biometrika 41, 100, 1954). Density
    of CO2: Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996). From 3 % on, or what the
    lab's policy sets (review.retention_change); that a density that moves by an eighth as much
    explains it: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import (
    HistoryCase,
    PeakHistory,
    certainty,
    level_words,
    since_words,
)
from methodlint.judging.ask.rule import Finding, Measure, minutes, show, visible

SUBJECT = "history"
CLASSES = ("caution", "note")
NEEDS = ()

_EXPLAINS = 0.125


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Report every peak that comes otherwise, with or without the density."""
    for peak in case.history.peaks:
        change = peak.retention_change
        if change is None:
            continue
        gone = change.has_returned
        size = change.largest if gone else change.size
        back = "; it has come back since" if gone else ""
        with_density, why = _density(peak, size)
        remedy = (
            "bring outlet pressure and oven back to what they read at first"
            if with_density
            else "look at modifier share, additive and age of the bottle, then at the column"
        )
        yield case.finding(
            case.entry_at(change.began.entry),
            "note" if gone else "caution",
            f"{visible(peak.name)} ({visible(peak.method)} on {visible(peak.column)}) comes "
            f"{level_words(size)} against {show(peak.first_retention, 'time', 'min')} at first; "
            f"{why}{back} ({since_words(change)}; {certainty(change)})",
            found=minutes(peak.first_retention * (1.0 + size)),
            limit=minutes(peak.first_retention),
            band=Measure(peak.first_retention * 2.0 * change.noise / 60.0, "min"),
            remedy=remedy,
            also=(case.entry_at(change.found.entry),),
        )


def _density(peak: PeakHistory, size: float) -> tuple[bool, str]:
    if peak.density is None:
        return False, "outlet pressure and oven were not read: the density is not known"
    said = f"{100.0 * peak.density:+.1f} %"
    # A denser mobile phase elutes earlier.
    if peak.density * size < 0.0 and abs(peak.density) >= _EXPLAINS * abs(size):
        return True, f"with the density of CO2 at the regulator ({said} by what was read)"
    return False, f"without the density of CO2 at the regulator ({said} by what was read)"
