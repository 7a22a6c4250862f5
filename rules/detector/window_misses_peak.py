"""Every expected peak lies inside the window in which it is measured.

Reason
    Retention drifts with pressure, temperature and the column's age. A window that holds the
    peak only just loses its flank, and the area with it, without any error.

Unsound
    kind: method
    expected_peaks: [{name: analyte A, retention_time: 2 min, plates: 9000}]
    detectors:
      - type: MS
        source: ESI
        polarity: positive
        transitions:
          - {name: analyte A, dwell: 20 ms, begins: 1.98 min, ends: 3 min}  # <- here

Sound
    kind: method
    expected_peaks: [{name: analyte A, retention_time: 2 min, plates: 9000}]
    detectors:
      - type: MS
        source: ESI
        polarity: positive
        transitions:
          - {name: analyte A, dwell: 20 ms, begins: 1.5 min, ends: 3 min}

Unsound, because the times are those of the UV trace and a long tube follows the cell
    kind: method
    peak_times_at: UV
    expected_peaks: [{name: analyte A, retention_time: 2 min, plates: 9000}]
    detectors:
      - type: MS
        source: ESI
        polarity: positive
        transitions:
          - {name: analyte A, dwell: 20 ms, begins: 1.5 min, ends: 2.2 min}  # <- here
    ---
    kind: instrument
    train:
      - {part: mixer, volume: 0.2 mL}
      - {part: injector, volume: 10 uL}
      - {part: column}
      - {part: cell, name: UV cell, volume: 11 uL, detector: UV}
      - {part: tube, name: cell to regulator, length: 6 m, bore: 0.25 mm}
      - {part: regulator}
      - {part: source, detector: MS}

Remedy
    Widen the window to three standard deviations and 5 % of the retention time on either side.
    A trace that ends too early as a whole is the matter of detector.stops-before-end. Times of
    a UV trace (`peak_times_at`) are later at a mass spectrometer by the tubes between them.

Source
    3 sigma + 5 %: common practice, no source.
"""

import math
from collections.abc import Iterator
from dataclasses import replace

from methodlint.judging.ask.detector import (
    ULTRAVIOLET,
    Detector,
    PeakWidth,
    cell_of,
    delay_to_source,
    span_of,
    traces,
    widths,
)
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, minutes, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.detectors",)

_SIGMAS, _DRIFT = 3.0, 0.05
_ANY = ("UV", "PDA", "DAD", "MS", "ELSD", "CAD", "FID")


def applies(case: RunCase) -> bool:
    """Without a window there is nothing to miss."""
    return any(
        detector.begins is not None
        or any(t.begins is not None or t.ends is not None for t in detector.transitions)
        for _, detector in traces(case, *_ANY)
    )


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Hold each peak against the transition of its name and against the start of the trace."""
    assert case.method is not None
    known = {peak.index: peak for peak in widths(case) if peak.retention_time is not None}
    for index, expected in enumerate(case.method.expected_peaks):
        peak = known.get(index)
        if peak is None:
            lacks = "retention_time" if expected.retention_time is None else "width"
            at = f"method.expected_peaks[{index}]"
            yield case.not_checked(at, f"{at}.{lacks}")
    named: dict[str, list[int]] = {}
    for index, peak in known.items():
        named.setdefault(peak.name.casefold(), []).append(index)
    at_cell = known
    for number, detector in traces(case, *_ANY):
        at = f"method.detectors[{number}]"
        known = _at_source(case, at_cell) if detector.type == "MS" else at_cell
        late = [p for p in known.values() if detector.begins and _from(p) < detector.begins.si]
        if late and detector.begins is not None:
            first = min(late, key=_from)
            yield _missed(case, at, first, detector.begins.si, math.inf, True)
            continue
        for index, transition in enumerate(detector.transitions):
            begins, ends = span_of(transition)
            missed = [
                known[number]
                for name in _peak_names(transition.name)
                for number in named.get(name, ())
                if not begins <= _from(known[number]) < _to(known[number]) <= ends
            ]
            if missed:
                yield _missed(case, f"{at}.transitions[{index}]", missed[0], begins, ends, False)


def _at_source(case: RunCase, peaks: dict[int, PeakWidth]) -> dict[int, PeakWidth]:
    """Peaks whose times are those of a UV trace, as the mass spectrometer sees them."""
    assert case.method is not None
    seen = case.method.peak_times_at
    if seen not in ULTRAVIOLET or case.rehearsal is None or not case.rehearsal.done:
        return peaks
    used = next((d for _, d in traces(case, *ULTRAVIOLET)), Detector(type=seen))
    cell = cell_of(case, used)
    if cell is None:
        return peaks
    return {
        index: replace(
            peak,
            retention_time=(peak.retention_time or 0.0)
            + delay_to_source(case.run, cell, peak.retention_time or 0.0),
        )
        for index, peak in peaks.items()
    }


def _peak_names(transition: str | None) -> list[str]:
    """Names of the peaks that a transition may be of: `caffeine 195 > 138` is that of `caffeine`."""
    name = (transition or "").casefold()
    return [name[:end] for end, letter in enumerate(f"{name} ") if letter == " "]


def _margin(peak: PeakWidth) -> float:
    return _SIGMAS * peak.sigma + _DRIFT * (peak.retention_time or 0.0)


def _from(peak: PeakWidth) -> float:
    return max((peak.retention_time or 0.0) - _margin(peak), 0.0)


def _to(peak: PeakWidth) -> float:
    return (peak.retention_time or 0.0) + _margin(peak)


def _missed(
    case: RunCase, at: str, peak: PeakWidth, begins: float, ends: float, whole: bool
) -> Finding:
    early, late = _min(math.floor(_from(peak) / 0.6) * 0.6), _min(math.ceil(_to(peak) / 0.6) * 0.6)
    said = f"from {_min(begins)}" + (f" to {_min(ends)}" if math.isfinite(ends) else " on")
    changes = []
    if begins > _from(peak):
        changes.append(case.change(f"{at}.begins", early))
    if ends < _to(peak):
        changes.append(case.change(f"{at}.ends", late))
    text = f"begin at {early}" if whole else f"measure it from {early} to {late}"
    key = "begins" if begins > _from(peak) else "ends"
    return case.finding(
        f"{at}.{key}",
        "fault",
        f"'{peak.name}' at {_min(peak.retention_time or 0.0)} needs {_min(_from(peak))} to "
        f"{_min(_to(peak))} (3 sigma and 5 %, {peak.words}); it is measured {said}: "
        f"{_min(max(begins - _from(peak), _to(peak) - ends))} short",
        found=minutes(begins if key == "begins" else ends),
        limit=minutes(_from(peak) if key == "begins" else _to(peak)),
        remedy=text,
        candidates=[case.candidate(text, *changes)],
        also=(case.at(f"method.expected_peaks[{peak.index}]"),),
    )


def _min(time: float) -> str:
    return show(time, "time", "min")
