"""Ramps are slow enough for the dwell volume, mixer included, to pass them on.

Reason
    A ramp that is over before the mixer has been filled again arrives flattened: the slope in
    the column is that of the mixer, and it changes with every instrument.

Unsound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 0.3 min, modifier_share: 40 % v/v}  # <- here
      - {time: 5 min, modifier_share: 40 % v/v}
      - {time: 5.5 min, modifier_share: 5 % v/v}

Sound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 1 min, modifier_share: 40 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
      - {time: 5.5 min, modifier_share: 5 % v/v}

Sound, because the row says that it is a jump
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 4 min, modifier_share: 30 % v/v}
      - {time: 4.1 min, modifier_share: 60 % v/v, step: true, reason: wash}
      - {time: 5 min, modifier_share: 60 % v/v}
      - {time: 5.5 min, modifier_share: 5 % v/v}

Sound, because the ramp begins when the last peak has left: it washes
    kind: method
    programme:
      - {time: 0 min, modifier_share: 15 % v/v}
      - {time: 6 min, modifier_share: 15 % v/v}
      - {time: 6.1 min, modifier_share: 50 % v/v}
      - {time: 7.1 min, modifier_share: 15 % v/v}
    expected_peaks: [{name: last peak, retention_time: 5.5 min, plates: 12000}]

Remedy
    Give the ramp the time that the message prints, or mark a wash or a return as a step.

Source
    Ramp volume of 1.5 dwell volumes, 50 % per minute: common practice, no source.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from methodlint.judging.ask.flow import FilledRow, delivered_slope, filled_rows
from methodlint.judging.ask.rule import Candidate, Finding, RunCase, When, minutes, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("flows",)

_DWELL_VOLUMES = 1.5
_STEEPEST = 0.5 / 60.0
_DECLARED = ("wash", "return", "step", "flush")


def applies(case: RunCase) -> bool:
    """Without a programme there is no ramp."""
    return case.method is not None and bool(case.method.programme)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare each ramp's time with what passes the mixer; report the worst of them."""
    assert case.method is not None
    run = case.run
    rows = filled_rows(case.method)
    last_peak = _last_peak(case)
    worst: tuple[float, FilledRow, FilledRow, float] | None = None
    for before, row in pairwise(rows):
        lasts = row.time - before.time
        level = lasts <= 0.0 or before.share == row.share
        if level or not row.flow or _declared(row, rows[0]) or before.time >= last_peak:
            continue
        change = abs((row.share or 0.0) - (before.share or 0.0))
        flow = 0.5 * (row.flow + (before.flow or row.flow))
        needed = max(_DWELL_VOLUMES * run.dwell_volume / flow, change / _STEEPEST)
        if lasts < needed * (1.0 - 1e-6) and (worst is None or needed / lasts > worst[0]):
            worst = (needed / lasts, before, row, needed)
    if worst is None:
        return
    _, before, row, needed = worst
    lasts = row.time - before.time
    set_slope = abs((row.share or 0.0) - (before.share or 0.0)) / lasts
    slope = delivered_slope(run, before.time, row.time)
    yield case.finding(
        f"method.programme[{row.index}].time",
        "caution",
        f"{row.number} is reached in {show(lasts, 'time', 'min')}, "
        f"{show(needed, 'time', 'min')} pass the dwell volume "
        f"({show(run.dwell_volume, 'volume')}): {show(needed - lasts, 'time', 'min')} too short; "
        f"{6000.0 * set_slope:.0f} %/min are set, at most {6000.0 * slope:.0f} %/min arrive",
        found=minutes(lasts),
        limit=minutes(needed),
        when=When(before.time, row.time),
        remedy=f"give the ramp {math.ceil(needed / 6.0) / 10.0:g} min",
        candidates=_candidates(case, row, needed - lasts),
    )


def _last_peak(case: RunCase) -> float:
    """Time of the last expected peak [s]; infinite where a peak has none."""
    times = [peak.retention_time for peak in (case.method.expected_peaks if case.method else ())]
    return max((math.inf if time is None else time.si for time in times), default=math.inf)


def _declared(row: FilledRow, first: FilledRow) -> bool:
    reason = (row.reason or "").casefold()
    return row.step or row.share == first.share or any(word in reason for word in _DECLARED)


def _candidates(case: RunCase, row: FilledRow, longer: float) -> list[Candidate]:
    """Shift this row and all that follow, and the run's end with them."""
    assert case.method is not None and row.index is not None
    later = math.ceil(longer / 6.0 - 1e-6) * 0.1
    changes = [
        case.change(f"method.programme[{index}].time", _text(moved.time.si / 60.0 + later))
        for index, moved in enumerate(case.method.programme)
        if index >= row.index
    ]
    if case.method.run_length is not None:
        text = _text(case.method.run_length.si / 60.0 + later)
        changes.append(case.change("method.run_length", text))
    said = f"reach {row.number} at {_text(row.time / 60.0 + later)}, {later:.1f} min later, and"
    return [case.candidate(f"{said} shift what follows", *changes)]


def _text(time: float) -> str:
    return f"{time:.6g} min"
