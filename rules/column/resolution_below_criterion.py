"""Expected peaks are as far apart as the method's own limit of resolution asks for.

Reason
    Times and widths that the method expects say what resolution it expects. If that is below its
    own limit, the suitability test fails on the first injection, or one of the figures is wrong.

Unsound
    kind: method
    suitability: {replicates: 5, resolution: 2.5, tailing: 1.8}
    expected_peaks:
      - {name: first peak, retention_time: 2.5 min, plates: 9000}
      - {name: second peak, retention_time: 2.6 min, plates: 9000}  # <- here

Sound
    kind: method
    suitability: {replicates: 5, resolution: 2.5, tailing: 1.8}
    expected_peaks:
      - {name: first peak, retention_time: 2.5 min, plates: 9000}
      - {name: second peak, retention_time: 2.9 min, plates: 9000}

Sound, because a mass spectrometer tells the two apart
    kind: method
    suitability: {replicates: 5, resolution: 2.5, tailing: 1.8}
    expected_peaks:
      - {name: first peak, retention_time: 2.5 min, plates: 9000, ion: 251.1}
      - {name: second peak, retention_time: 2.6 min, plates: 9000, ion: 279.1}

Remedy
    Compare times and widths with the run that they were read from. If they are right, change the
    separation or the limit.

Source
    Rs = 2 (t2 - t1) / (w1 + w2), widths at the base: IUPAC, Pure Appl. Chem. 65, 819 (1993)
    (unverified). Widths guessed from the column's plates, 25 % either way: common practice, no
    source.
"""

from collections.abc import Iterator
from itertools import pairwise

from methodlint.judging.ask.detector import GUESS_BAND, PeakWidth, widths
from methodlint.judging.ask.rule import Finding, Measure, RunCase, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method",)


def applies(case: RunCase) -> bool:
    """The method sets a limit, and names peaks to hold it against."""
    suits = case.method.suitability if case.method is not None else None
    return suits is not None and suits.resolution is not None and len(_timed(case)) > 1


def _timed(case: RunCase) -> list[tuple[float, PeakWidth]]:
    found = [(p.retention_time, p) for p in widths(case) if p.retention_time is not None]
    return sorted(found, key=lambda item: item[0])


def judge(case: RunCase) -> Iterator[Finding]:
    """Find the two neighbours that are closest for their widths."""
    assert case.method is not None and case.method.suitability is not None
    wanted, peaks = case.method.suitability.resolution, case.method.expected_peaks
    assert wanted is not None
    worst = None
    for (first, one), (second, two) in pairwise(_timed(case)):
        ions = peaks[one.index].ion, peaks[two.index].ion
        if None not in ions and ions[0] != ions[1]:
            continue
        found = 2.0 * (second - first) / (one.width + two.width)
        if worst is None or found < worst[0]:
            worst = found, one, two
    if worst is None or worst[0] >= wanted:
        return
    found, one, two = worst
    band = GUESS_BAND * found if one.guessed or two.guessed else 0.0
    yield case.finding(
        f"method.expected_peaks[{two.index}]",
        "caution",
        f"'{one.name}' and '{two.name}' are expected with a resolution of {found:.2g}, the method's "
        f"limit is {wanted:g}: {show((two.retention_time or 0.0) - (one.retention_time or 0.0), 'time')} "
        f"apart, {show(one.width, 'time')} and {show(two.width, 'time')} wide at the base",
        found=Measure(found),
        limit=Measure(wanted),
        band=Measure(band) if band else None,
        remedy="compare times and widths with the run that they are from, then the limit",
        also=(case.at("method.suitability.resolution"),),
    )
