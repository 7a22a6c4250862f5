"""A fraction is collected while its peak passes the valve, and nothing else does.

Reason
    The stream takes its time from the detector to the fraction valve. A window set by the trace
    alone opens too early and closes before the tail has come: product goes to waste, and what
    elutes next goes into the vessel.

Unsound
    kind: method
    purpose: preparative
    expected_peaks: [{name: product, retention_time: 3 min, width: 24 s}]
    collection:
      fractions: [{peak: product, begins: 3.05 min, ends: 3.6 min}]  # <- here

Sound
    kind: method
    purpose: preparative
    expected_peaks: [{name: product, retention_time: 3 min, width: 24 s}]
    collection:
      fractions: [{peak: product, begins: 2.75 min, ends: 3.25 min}]

Remedy
    Open the valve from two standard deviations before the peak to two after it, later by the
    delay volume of the collector. A heart cut on purpose is a fraction without `peak`.

Source
    95 % of a Gaussian peak lie within two standard deviations (arithmetic).
"""

from collections.abc import Iterator

from methodlint.judging.ask.collection import delay_to_valve, peak_window
from methodlint.judging.ask.detector import peak_widths
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, minutes, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.collection",)

_SIGMAS = 2.0
_SMALL = 0.3


def applies(case: RunCase) -> bool:
    """The method collects."""
    return case.get("method.collection") is not None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Hold the window of each fraction against the peak that it names."""
    method = case.method
    assert method is not None and method.collection is not None
    peaks = peak_widths(method, case.column)
    known = {peak.name.casefold(): peak for peak in peaks if peak.retention_time is not None}
    collector = case.instrument.collector if case.instrument is not None else None
    for index, fraction in enumerate(method.collection.fractions):
        at = f"method.collection.fractions[{index}]"
        if fraction.peak is None:
            continue
        peak = known.get(fraction.peak.casefold())
        if peak is None:
            reason = f"when '{fraction.peak}' elutes, and how wide, is not known"
            yield case.not_checked(at, "method.expected_peaks[].width", reason)
            continue
        early, late = peak_window(peak, _SIGMAS)
        delay = delay_to_valve(case.run, collector, early) if case.rehearsal is not None else 0.0
        early, late = early + delay, late + delay
        begins, ends = fraction.begins.si, fraction.ends.si
        lost = max(begins - early, late - ends)
        if lost <= _SMALL:
            continue
        key = "begins" if begins - early >= late - ends else "ends"
        behind = f", {show(delay, 'time', 's')} after the cell" if delay else ""
        text = f"collect from {show(early, 'time', 'min')} to {show(late, 'time', 'min')}"
        yield case.finding(
            f"{at}.{key}",
            "fault",
            f"'{peak.name}' passes the valve from {show(early, 'time', 'min')} to "
            f"{show(late, 'time', 'min')}{behind}; it is collected from "
            f"{show(begins, 'time', 'min')} to {show(ends, 'time', 'min')}: "
            f"{show(lost, 'time', 's')} of it are lost",
            found=minutes(begins if key == "begins" else ends),
            limit=minutes(early if key == "begins" else late),
            remedy=text,
            candidates=[
                case.candidate(
                    text,
                    case.change(f"{at}.begins", show(min(begins, early), "time", "min")),
                    case.change(f"{at}.ends", show(max(ends, late), "time", "min")),
                )
            ],
            also=(case.at(f"method.expected_peaks[{peak.index}]"),),
        )
