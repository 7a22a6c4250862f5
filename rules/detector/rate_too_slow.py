"""The data rate puts enough points over the narrowest peak.

Reason
    A peak drawn with few points loses height, area precision and resolution. SFC peaks are often
    a second wide or less, so a rate that suits liquid chromatography can be too slow.

Unsound
    kind: method
    expected_peaks: [{name: first peak, retention_time: 1 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 2 Hz}  # <- here

Sound
    kind: method
    expected_peaks: [{name: first peak, retention_time: 1 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 10 Hz}

Sound, because the trace only triggers a collector
    kind: method
    expected_peaks: [{name: first peak, retention_time: 1 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 2 Hz, purpose: trigger}

Remedy
    Raise the rate. The width comes from the width given for the peak, else from its plates, else
    from the plates of the column; the last is a guess, and the message says so.

Source
    20 to 30 points over a peak: agreeing guidance on detectors, no single source. Fewer than 10
    a fault: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import ANALOGUE, judge_points, narrowest, no_width, traces
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Measure,
    NotChecked,
    RunCase,
    number,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.detectors",)

_FEW, _ENOUGH = 10.0, 20.0
_RATES = (5, 10, 20, 40, 50, 80, 100, 160, 200)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Count the points of every evaluated trace over the narrowest peak."""
    peak = narrowest(case)
    for index, detector in traces(case, *ANALOGUE):
        at = f"method.detectors[{index}]"
        if detector.rate is None:
            yield case.not_checked(at, f"{at}.rate")
            continue
        if peak is None:
            yield no_width(case)
            return
        points = peak.width * detector.rate.si
        verdict = judge_points(points, peak.guessed, _FEW, _ENOUGH)
        if verdict is None:
            continue
        needed = _ENOUGH / peak.width
        yield case.finding(
            f"{at}.rate",
            verdict.grade,
            f"{number(points, 3)} points over '{peak.name}', {_ENOUGH:.0f} are recommended "
            f"({points - _ENOUGH:+.3g}): it is {show(peak.width, 'time')} wide at the base "
            f"({peak.words}); {show(needed, 'frequency', digits=2)} give {_ENOUGH:.0f} points",
            found=Measure(points),
            limit=Measure(_ENOUGH),
            possible=verdict.possible,
            remedy=f"raise the rate to {show(needed, 'frequency', digits=2)} or more",
            candidates=_candidates(case, f"{at}.rate", needed),
            also=(case.at(f"method.expected_peaks[{peak.index}]"),),
        )


def _candidates(case: RunCase, place: str, needed: float) -> list[Candidate]:
    rates = [rate for rate in _RATES if rate >= needed][:2]
    return [
        case.candidate(f"set the rate to {rate} Hz", case.change(place, f"{rate} Hz"))
        for rate in rates
    ]
