"""The programme reaches the detector before the run ends.

Reason
    What the pumps mix arrives at the detector after the dwell volume and the column have gone by.
    A last ramp that is still on its way when the run stops has eluted nothing that was recorded.

Unsound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 6 min, modifier_share: 40 % v/v}
    run_length: 6 min  # <- here

Sound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 6 min, modifier_share: 40 % v/v}
    run_length: 7.5 min

Sound, because only the return to the start is on its way, and settling follows
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
      - {time: 6.9 min, modifier_share: 40 % v/v}
      - {time: 7 min, modifier_share: 5 % v/v}
    run_length: 7 min
    settling_time: 3 min

Remedy
    Lengthen the run to the time that the message prints, or end the last ramp earlier. Of a hold
    at the end only its begin has to arrive.

Source
    Dwell volume over flow, then the hold-up time by mass. Common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.flow import TIME_BAND, arrival_at_detector, filled_rows, last_to_be_seen
from methodlint.judging.ask.rule import (
    Finding,
    Measure,
    NotChecked,
    RunCase,
    When,
    judge_limit,
    minutes,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.run_length",)
CAUSES = ("gradient.reequilibration-short",)


def applies(case: RunCase) -> bool:
    """Without a programme there is nothing on its way."""
    return case.method is not None and bool(case.method.programme)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the arrival of the last row that has to be seen with the run length."""
    assert case.method is not None and case.method.run_length is not None
    rows = tuple(sorted(filled_rows(case.method), key=lambda row: row.time))
    settling = case.method.settling_time
    last = last_to_be_seen(rows, settles=settling is not None and settling.si > 0.0)
    if last is None:
        return
    end = case.method.run_length.si
    run = case.rehearsal
    if run is None or not run.done:
        if last.time > end:
            yield _finding(case, end, last.time, last.time, 0.0, last.number)
        else:
            for item in run.missing if run is not None else ():
                yield case.not_checked("method.run_length", item.where, item.reason)
        return
    arrival = arrival_at_detector(run, last.time)
    if not math.isfinite(arrival):
        yield case.not_checked("method.run_length", "method.flow", "nothing flows at the end")
        return
    band = TIME_BAND * (arrival - last.time)
    if judge_limit(arrival, end, band, "fault") is not None:
        yield _finding(case, end, last.time, arrival, band, last.number)


def _finding(
    case: RunCase, end: float, leaves: float, arrival: float, band: float, row: str
) -> Finding:
    verdict = judge_limit(arrival, end, band, "fault")
    assert verdict is not None
    needed = math.ceil((arrival + band) / 6.0 - 1e-6) / 10.0
    if arrival > leaves:
        said = f"{row} ({_min(leaves)}) reaches the detector at {_min(arrival)}"
    else:
        said = f"{row} is at {_min(leaves)}, before any delay"
    return case.finding(
        "method.run_length",
        verdict.grade,
        f"the run stops at {_min(end)}; {said}: {_min(arrival - end)} missing"
        + (f" (band {_min(band)})" if band else ""),
        found=minutes(arrival),
        limit=minutes(end),
        band=Measure(band / 60.0, "min"),
        when=When(leaves, arrival),
        possible=verdict.possible,
        remedy=f"set the run length to {needed:g} min",
        candidates=[
            case.candidate(
                f"set the run length to {longer:g} min",
                case.change("method.run_length", f"{longer:g} min"),
            )
            for longer in (round(needed + more, 1) for more in (0.0, 0.1, 0.3))
        ],
        also=(case.at("method.programme"),),
    )


def _min(time: float) -> str:
    return show(time, "time", "min")
