"""The mass spectrometer comes round often enough for the peaks of its busiest moment.

Reason
    Dwell times and pauses of all transitions that are measured at the same time add up to a
    cycle, and a peak gets one point in each. Windows that do not overlap do not add up: only the
    busiest scheduled moment counts.

Unsound
    kind: method
    expected_peaks: [{name: analyte A, retention_time: 1 min, plates: 9000}]
    detectors:
      - type: MS
        source: ESI
        polarity: positive
        pause: 5 ms
        transitions:  # <- here
          - {name: analyte A, dwell: 200 ms, begins: 0.5 min, ends: 1.5 min}
          - {name: analyte B, dwell: 200 ms, begins: 0.8 min, ends: 1.8 min}

Sound
    kind: method
    expected_peaks: [{name: analyte A, retention_time: 1 min, plates: 9000}]
    detectors:
      - type: MS
        source: ESI
        polarity: positive
        pause: 5 ms
        transitions:
          - {name: analyte A, dwell: 100 ms, begins: 0.5 min, ends: 1.5 min}
          - {name: analyte B, dwell: 100 ms, begins: 1.6 min, ends: 2.8 min}

Remedy
    Shorten the dwell times or narrow the windows so that fewer of them overlap.

Source
    10 and 15 points over a peak: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.detector import (
    Busy,
    PeakWidth,
    busy_spans,
    dwell_for_cycle,
    fewest_points,
    judge_points,
    missing_of_cycle,
    narrowest,
    no_width,
    traces,
    widths,
)
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Measure,
    NotChecked,
    RunCase,
    When,
    counted,
    number,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.detectors",)

_FEW, _ENOUGH = 10.0, 15.0
_LEAST_DWELL = 0.002


def applies(case: RunCase) -> bool:
    """Without a mass spectrometer there is no cycle."""
    return next(traces(case, "MS"), None) is not None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Count points over the peaks of the busiest moment, or spectra over the narrowest peak."""
    peak = narrowest(case)
    for index, detector in traces(case, "MS"):
        at = f"method.detectors[{index}]"
        if peak is None:
            yield no_width(case)
        elif lacks := missing_of_cycle(detector):
            yield case.not_checked(at, f"{at}.{lacks}")
        elif not detector.transitions and detector.rate is not None:
            wanted = f"{math.ceil(_ENOUGH / peak.width)} Hz"
            change = case.change(f"{at}.rate", wanted)
            remedies = [case.candidate(f"set the rate to {wanted}", change)]
            points = peak.width * detector.rate.si
            yield from _finding(case, f"{at}.rate", peak, points, f"{wanted} pass", remedies)
        else:
            pause = detector.pause.si if detector.pause is not None else 0.0
            switch = detector.polarity_switch.si if detector.polarity_switch is not None else 0.0
            worst = fewest_points(busy_spans(detector, pause, switch), widths(case))
            if worst is not None:
                yield from _scheduled(case, at, *worst)


def _scheduled(case: RunCase, at: str, peak: PeakWidth, busy: Busy) -> Iterator[Finding]:
    count = len(busy.transitions)
    longest = peak.width / _ENOUGH
    ends = busy.ends if math.isfinite(busy.ends) else None
    until = f" to {show(ends, 'time', 'min')}" if ends is not None else " on"
    said = (
        f"from {show(busy.begins, 'time', 'min')}{until} {counted(count, 'transition')} take "
        f"{show(busy.cycle, 'time')} for a cycle; {show(longest, 'time')} or "
        f"{math.floor(longest / busy.cycle * count)} such transitions pass"
    )
    remedies = []
    detector = case.get(at)
    each = math.floor(1e3 * dwell_for_cycle(detector, busy, longest)) / 1e3
    if each >= _LEAST_DWELL:
        changes = [
            case.change(f"{at}.transitions[{index}].dwell", f"{1e3 * each:.0f} ms")
            for index in busy.transitions
            if detector.transitions[index].dwell.si > each
        ]
        text = f"set the dwell times of that moment to {1e3 * each:.0f} ms"
        remedies.append(case.candidate(text, *changes))
    points, when = peak.width / busy.cycle, When(busy.begins, ends)
    yield from _finding(case, f"{at}.transitions", peak, points, said, remedies, when)


def _finding(
    case: RunCase,
    at: str,
    peak: PeakWidth,
    points: float,
    said: str,
    remedies: list[Candidate],
    when: When | None = None,
) -> Iterator[Finding]:
    verdict = judge_points(points, peak.guessed, _FEW, _ENOUGH)
    if verdict is None:
        return
    yield case.finding(
        at,
        verdict.grade,
        f"{number(points, 3)} points over '{peak.name}', {_ENOUGH:.0f} are recommended "
        f"({points - _ENOUGH:+.3g}); it is {show(peak.width, 'time')} wide ({peak.words}); {said}",
        found=Measure(points),
        limit=Measure(_ENOUGH),
        when=when,
        possible=verdict.possible,
        remedy="shorten the dwell times or narrow the windows",
        candidates=remedies,
        also=(case.at(f"method.expected_peaks[{peak.index}]"),),
    )
