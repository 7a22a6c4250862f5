"""Stacked injections leave every collected peak alone.

Reason
    With an injection every two minutes each peak repeats every two minutes. A peak of one
    injection that falls on a collected peak of another, or on the disturbance of the injection
    itself, ends in the same vessel.

Unsound
    kind: method
    purpose: preparative
    injection: {volume: 500 uL, stacked_every: 1.4 min, stream: modifier}  # <- here
    expected_peaks:
      - {name: first enantiomer, retention_time: 3 min, width: 30 s, collected: true}
      - {name: second enantiomer, retention_time: 4.5 min, width: 36 s, collected: true}

Sound
    kind: method
    purpose: preparative
    injection: {volume: 500 uL, stacked_every: 2.7 min, stream: modifier}
    expected_peaks:
      - {name: first enantiomer, retention_time: 3 min, width: 30 s, collected: true}
      - {name: second enantiomer, retention_time: 4.5 min, width: 36 s, collected: true}

Remedy
    Use the interval that the message gives, the shortest that keeps the windows apart.

Source
    Arithmetic. Windows of peaks without a fraction: two standard deviations on either side,
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.collection import (
    StackWindow,
    delay_to_valve,
    peak_window,
    stack_overlaps,
)
from methodlint.judging.ask.detector import widths
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, minutes, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.injection.stacked_every", "method.expected_peaks")

_SIGMAS = 2.0
_STEP = 3.0


def applies(case: RunCase) -> bool:
    """Injections are stacked."""
    return case.get("method.injection.stacked_every") is not None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Fold the windows onto one interval."""
    windows, lacking = _windows(case)
    for index in lacking:
        at = f"method.expected_peaks[{index}]"
        yield case.not_checked(at, f"{at}.width", "without it stacked peaks may fall on it")
    every = case.get("method.injection.stacked_every").si
    found = max(stack_overlaps(windows, every), key=lambda overlap: overlap.time, default=None)
    if found is None:
        return
    longest = max(window.ends for window in windows)
    tried = (every + n * _STEP for n in range(1, int(longest / _STEP) + 2))
    apart = next((time for time in tried if not any(stack_overlaps(windows, time))), None)
    text = f"inject every {show(apart, 'time', 'min')}" if apart else "inject one by one"
    key = "method.injection.stacked_every"
    yield case.finding(
        key,
        "fault",
        f"every {show(every, 'time', 'min')} {found.first} falls on "
        f"{'itself' if found.first == found.second else found.second} of another injection for "
        f"{show(found.time, 'time', 's')}",
        found=minutes(every),
        limit=minutes(apart) if apart else None,
        remedy=text,
        candidates=[case.candidate(text, case.change(key, f"{apart / 60.0:.4g} min"))]
        if apart
        else (),
        also=(case.at("method.expected_peaks"),),
    )


def _windows(case: RunCase) -> tuple[list[StackWindow], list[int]]:
    """Windows at the cell, and the numbers of collected peaks that have none."""
    method = case.method
    assert method is not None and method.injection is not None
    known = {peak.index: peak for peak in widths(case) if peak.retention_time is not None}
    fractions = method.collection.fractions if method.collection is not None else ()
    named = {(fraction.peak or "").casefold(): fraction for fraction in fractions}
    collector = case.instrument.collector if case.instrument is not None else None
    windows, lacking = [], []
    for index, peak in enumerate(method.expected_peaks):
        fraction = named.get(peak.name.casefold())
        if fraction is not None:
            begins, ends = fraction.begins.si, fraction.ends.si
            late = delay_to_valve(case.run, collector, begins) if case.rehearsal else 0.0
            windows.append(StackWindow(f"'{peak.name}'", begins - late, ends - late, True))
        elif index in known:
            span = peak_window(known[index], _SIGMAS)
            windows.append(StackWindow(f"'{peak.name}'", *span, peak.collected))
        elif peak.collected:
            lacking.append(index)
    disturbed = method.injection.disturbance
    if disturbed is not None:
        windows.append(StackWindow("the injection disturbance", 0.0, disturbed.si, False))
    return windows, lacking
