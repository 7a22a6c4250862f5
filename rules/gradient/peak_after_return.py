"""No peak is expected after the return to the start has passed the column.

Reason
    What is still on the column when the modifier falls back stops there, and comes with the next
    injection as a peak that nobody expects. Its time belongs to a longer hold, or is wrong.

Unsound
    kind: method
    expected_peaks:
      - {name: first peak, retention_time: 2.5 min, plates: 9000}
      - {name: last peak, retention_time: 7.8 min, plates: 12000}  # <- here

Sound
    kind: method
    expected_peaks:
      - {name: first peak, retention_time: 2.5 min, plates: 9000}
      - {name: last peak, retention_time: 5.5 min, plates: 12000}

Remedy
    Hold the highest share until the last peak has left, or compare its time with the run that it
    was read from.

Source
    Dwell volume and hold-up time of the rehearsal; the band of 5 %: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import widths
from methodlint.judging.ask.flow import TIME_BAND, arrival_at_detector, filled_rows
from methodlint.judging.ask.rule import Finding, RunCase, When, minutes, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)

_FALLS = 0.02


def applies(case: RunCase) -> bool:
    """A gradient with expected peaks."""
    method = case.method
    return method is not None and bool(method.programme) and bool(method.expected_peaks)


def judge(case: RunCase) -> Iterator[Finding]:
    """Follow the beginning of the return through dwell volume and column."""
    assert case.method is not None
    begins = _return(case)
    if begins is None:
        return
    injection = case.method.injection
    late = injection.after_start.si if injection and injection.after_start else 0.0
    front = arrival_at_detector(case.run, begins) - late
    peaks = [(p.retention_time, p) for p in widths(case) if p.retention_time is not None]
    after = [(time, p) for time, p in peaks if time > front * (1.0 + TIME_BAND) + p.sigma]
    if not after:
        return
    time, peak = max(after, key=lambda item: item[0])
    yield case.finding(
        f"method.expected_peaks[{peak.index}].retention_time",
        "caution",
        f"'{peak.name}' is expected at {show(time, 'time', 'min')}; the modifier falls back from "
        f"{show(begins, 'time', 'min')} on, which has passed the column at "
        f"{show(front, 'time', 'min')}: {show(time - front, 'time', 'min')} too late",
        found=minutes(time),
        limit=minutes(front),
        band=minutes(TIME_BAND * front),
        when=When(front, time),
        remedy=f"hold the highest share {show(time - front, 'time', 'min')} longer, or correct the time",
        also=(case.at("method.programme"),),
    )


def _return(case: RunCase) -> float | None:
    """Time at which the last fall of composition begins [s], if it leads back to the start."""
    assert case.method is not None
    rows = filled_rows(case.method)
    shares = [row.share for row in rows if row.share is not None]
    if len(shares) < len(rows) or shares[-1] > shares[0] + _FALLS:
        return None
    for before, after, row, following in zip(
        shares[-2::-1], shares[:0:-1], rows[-2::-1], rows[:0:-1], strict=True
    ):
        if before > after + _FALLS and before > shares[0] + _FALLS:
            return following.time if following.step else row.time
    return None
