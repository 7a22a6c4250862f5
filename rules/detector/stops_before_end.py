"""Recording goes on until the last expected peak is down.

Reason
    A trace that stops within the last peak cuts its tail, and its area is wrong.

Unsound
    kind: method
    expected_peaks: [{name: last peak, retention_time: 5.5 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz, ends: 5.52 min}  # <- here

Sound
    kind: method
    expected_peaks: [{name: last peak, retention_time: 5.5 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz, ends: 6 min}

Sound, because only the first peak is evaluated
    kind: method
    expected_peaks: [{name: last peak, retention_time: 5.5 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz, ends: 3 min, heart_cut: true}

Remedy
    Let the trace, or the run, go on for five standard deviations after the last peak.

Source
    5 sigma: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.detector import GUESS_BAND, no_width, traces, widths
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, judge_limit, minutes, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.detectors", "method.run_length")

_SIGMAS = 5.0
_ANY = ("UV", "PDA", "DAD", "MS", "ELSD", "CAD", "FID")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the end of each trace with the last peak; once for traces that end with the run."""
    assert case.method is not None and case.method.run_length is not None
    run_end = case.method.run_length.si
    timed = [peak for peak in widths(case) if peak.retention_time is not None]
    said: set[str] = set()
    for index, detector in traces(case, *_ANY):
        if detector.heart_cut:
            continue
        if not timed:
            yield no_width(case)
            return
        own = detector.ends.si if detector.ends is not None else run_end
        place = f"method.detectors[{index}].ends" if own < run_end else "method.run_length"
        end = min(own, run_end)
        last = max(timed, key=lambda peak: (peak.retention_time or 0.0) + _SIGMAS * peak.sigma)
        tail = _SIGMAS * last.sigma
        needed = (last.retention_time or 0.0) + tail
        band = GUESS_BAND * tail if last.guessed else 0.0
        verdict = judge_limit(end, needed, band, "fault", above=False) if end < needed else None
        if verdict is None or place in said:
            continue
        said.add(place)
        text = f"{math.ceil((needed + band) / 6.0 - 1e-6) / 10.0:g} min"
        yield case.finding(
            place,
            verdict.grade,
            f"recording ends at {show(end, 'time', 'min')}, '{last.name}' is down at "
            f"{show(needed, 'time', 'min')} (5 sigma after "
            f"{show(last.retention_time or 0.0, 'time', 'min')}, {last.words}): "
            f"{show(needed - end, 'time')} missing",
            found=minutes(end),
            limit=minutes(needed),
            band=minutes(band),
            possible=verdict.possible,
            remedy=f"record until {text}",
            candidates=[case.candidate(f"record until {text}", case.change(place, text))],
            also=(case.at(f"method.expected_peaks[{last.index}]"),),
        )
