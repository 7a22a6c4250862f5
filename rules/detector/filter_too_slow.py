"""The detector's filter is short against the narrowest peak.

Reason
    A filter with a time constant near the width of a peak broadens it, makes it tail and lowers
    it. A tenth of the base width costs about a seventh of the plates.

Unsound
    kind: method
    expected_peaks: [{name: first peak, retention_time: 1 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz, filter: 1 s}  # <- here

Sound
    kind: method
    expected_peaks: [{name: first peak, retention_time: 1 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz, filter: 0.1 s}

Sound, because the trace only triggers a collector
    kind: method
    expected_peaks: [{name: first peak, retention_time: 1 min, plates: 9000}]
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, filter: 1 s, purpose: trigger}

Remedy
    Choose a shorter time constant; the message prints the largest that passes.

Source
    A tenth and a fifth of the base width: common practice, no source. Plates lost: a filter of
    first order adds the square of its time constant to the variance (arithmetic).
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import (
    ANALOGUE,
    GUESS_BAND,
    narrowest,
    no_width,
    plate_loss,
    traces,
)
from methodlint.judging.ask.rule import Finding, Measure, NotChecked, RunCase, judge_limit, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.detectors",)

_CAUTION, _FAULT = 0.1, 0.2
_SETTINGS = (5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare every evaluated trace's time constant with the narrowest peak."""
    peak = narrowest(case)
    for index, detector in traces(case, *ANALOGUE):
        at = f"method.detectors[{index}]"
        if detector.filter is None:
            yield case.not_checked(at, f"{at}.filter")
            continue
        if peak is None:
            yield no_width(case)
            return
        constant = detector.filter.si
        largest = _CAUTION * peak.width
        if constant <= largest * (1.0 + 1e-9):
            continue
        limit = _FAULT * peak.width
        band = GUESS_BAND * limit if peak.guessed else 0.0
        verdict = judge_limit(constant, limit, band, "fault") if constant > limit else None
        loss = plate_loss(constant**2, peak.sigma**2)
        yield case.finding(
            f"{at}.filter",
            verdict.grade if verdict is not None else "caution",
            f"a time constant of {show(constant, 'time')} against '{peak.name}', "
            f"{show(peak.width, 'time')} wide at the base ({peak.words}): at most "
            f"{show(largest, 'time')} ({show(constant - largest, 'time')} less) is recommended; "
            f"it costs {100.0 * loss:.0f} % of the plates",
            found=Measure(constant, "s"),
            limit=Measure(largest, "s"),
            possible=verdict.possible if verdict is not None else False,
            remedy=f"choose a time constant of {show(largest, 'time')} or less",
            candidates=[
                case.candidate(
                    f"set the filter to {setting:g} s",
                    case.change(f"{at}.filter", f"{setting:g} s"),
                )
                for setting in _SETTINGS
                if setting <= largest
            ][:1],
            also=(case.at(f"method.expected_peaks[{peak.index}]"),),
        )
