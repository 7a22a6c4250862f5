"""No peak is expected before the mobile phase itself has passed the column.

Reason
    Nothing that is injected leaves a column before its hold-up time. A peak that is expected
    earlier belongs to another column or another flow, or its time has the wrong unit; whatever
    is read from it, such as the rate of a detector or the length of the run, is wrong as well.

Unsound
    kind: method
    expected_peaks:
      - {name: first peak, retention_time: 0.1 min, plates: 9000}  # <- here
      - {name: last peak, retention_time: 5.5 min, plates: 12000}

Sound
    kind: method
    expected_peaks:
      - {name: first peak, retention_time: 1 min, plates: 9000}
      - {name: last peak, retention_time: 5.5 min, plates: 12000}

Sound, because a peak at the hold-up time marks it
    kind: method
    expected_peaks:
      - {name: void, retention_time: 0.41 min, plates: 3000}
      - {name: last peak, retention_time: 5.5 min, plates: 12000}

Remedy
    Compare column, flow and the unit of the time with the run that the times were read from. In
    a transfer the times go with the hold-up time.

Source
    Definition of the hold-up time: IUPAC, Pure Appl. Chem. 65, 819 (1993) (unverified). Below
    nine tenths of it a caution: porosity and density are not known better. Below one half a
    fault: what is too large for the pores passes about 0.4 of 0.65 of the volume, and nothing
    passes less (common practice, no source).
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.flow import TIME_BAND, unretained_time
from methodlint.judging.ask.rule import Finding, RunCase, counted, minutes, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run",)
CAUSES = (  # a time that is too early makes the peak too narrow
    "detector.cell-volume-too-large",
    "detector.filter-too-slow",
    "detector.ms-cycle-too-slow",
    "detector.rate-too-slow",
)

_EARLY, _IMPOSSIBLE = 0.9, 0.5


def applies(case: RunCase) -> bool:
    """Without an expected time there is nothing to compare."""
    return case.method is not None and any(p.retention_time for p in case.method.expected_peaks)


def judge(case: RunCase) -> Iterator[Finding]:
    """Hold the expected times against that of a peak without retention; once, at the earliest."""
    assert case.method is not None
    run, injection = case.run, case.method.injection
    if float(run.outlet_margin[0]) < 0.0:
        return  # with two phases there is no such figure
    late = injection.after_start.si if injection and injection.after_start else 0.0
    hold_up = unretained_time(run, late)
    if not math.isfinite(hold_up):
        return
    # Peaks of stacked injections may be counted from another injection than their own.
    every = injection.stacked_every.si if injection and injection.stacked_every else 0.0
    peaks = case.method.expected_peaks
    times = [(p.retention_time.si, i) for i, p in enumerate(peaks) if p.retention_time is not None]
    early = [(time, i) for time, i in times if every <= time < _EARLY * hold_up]
    if not early:
        return
    time, index = min(early)
    volume, flow = show(run.hold_up_volume, "volume"), show(float(run.set_flow[0]), "volume flow")
    yield case.finding(
        f"method.expected_peaks[{index}].retention_time",
        "fault" if time < _IMPOSSIBLE * hold_up else "caution",
        f"'{peaks[index].name}' is expected at {show(time, 'time', 'min')}; nothing leaves the "
        f"column before its hold-up time of {show(hold_up, 'time', 'min')} ({volume} of mobile "
        f"phase, {flow} set): {show(hold_up - time, 'time', 'min')} too early; too early are "
        f"{len(early)} of {counted(len(times), 'expected time')}",
        found=minutes(time),
        limit=minutes(hold_up),
        band=minutes(TIME_BAND * hold_up),
        remedy="check the column, the flow and the unit of the time against the run that it is from",
        also=(case.at("method.flow"), case.at("method.column")),
    )
