"""A lower flow with all times longer by the same factor: the separation stays as it is."""

from __future__ import annotations

import bisect
from collections.abc import Iterator, Sequence

from methodlint.documents.kinds.method import Method
from methodlint.documents.quantities.format import number, show
from methodlint.judging.case import RunCase
from methodlint.judging.finding import Candidate, Change

_SAME = 1e-6
"""Two times are the same within this [s]."""


def slower_and_longer(case: RunCase, part: float, *, way: str = "") -> Candidate:
    """Make a candidate with every flow multiplied by a factor and every time divided by it.

    Parameters
    ----------
    part
        What is left of the flow, as a ratio.
    way
        The way of the candidate.
    """
    method = case.method
    assert method is not None
    changes: list[Change] = []

    def scale(path: str, dimension: str, unit: str, factor: float) -> bool:
        quantity = case.get(path)
        if quantity is not None:
            text = show(quantity.si * factor, dimension, unit, 4)
            changes.append(case.change(path, text))
        return quantity is not None

    scale("method.flow", "volume flow", "mL/min", part)
    single = changes[0].value if changes else ""
    for index in range(len(method.programme)):
        if scale(f"method.programme[{index}].flow", "volume flow", "mL/min", part):
            single = ""
    flows = len(changes)
    for path in _times(method):
        scale(path, "time", "min", 1.0 / part)
    said = f"set the flow to {single}" if single else f"multiply all flows by {part:g}"
    if len(changes) > flows:
        said += f" and multiply all times by {number(1.0 / part, 3)}"
    return case.candidate(said, *changes, way=way)


def times_behind(case: RunCase, before: Sequence[float], after: Sequence[float]) -> list[Change]:
    """Move the times of a method so that between two rows as much is pumped as before.

    Parameters
    ----------
    before, after
        Flow of each row of the programme as it is and as it is to be [m3/s]; not 0.
    """
    method = case.method
    assert method is not None
    rows = method.programme
    at = [row.time.si for row in rows]
    # Between two rows the flow runs straight, or stays as it is until the jump.
    last = range(len(rows) - 1)
    mean = [
        (old[n], new[n]) if rows[n + 1].step else (old[n] + old[n + 1], new[n] + new[n + 1])
        for old, new in [(before, after)]
        for n in last
    ]
    longer = [old / new for old, new in mean] + [before[-1] / after[-1]]
    moved = [at[0]]
    for n in last:
        moved.append(moved[n] + (at[n + 1] - at[n]) * longer[n])

    def later(time: float) -> float:
        n = max(bisect.bisect_right(at, time) - 1, 0)
        return moved[n] + (time - at[n]) * longer[n] if time > at[0] else time

    changes = []
    for path in _times(method):
        quantity = case.get(path)
        if quantity is None:
            continue
        if path.endswith("settling_time"):
            time = quantity.si * before[0] / after[0]
        elif path.endswith("width"):
            peak = case.get(path.replace("width", "retention_time"))
            n = max(bisect.bisect_right(at, peak.si) - 1, 0) if peak is not None else 0
            time = quantity.si * longer[n]
        else:
            time = later(quantity.si)
        if abs(time - quantity.si) > _SAME:
            changes.append(case.change(path, show(time, "time", "min", 4)))
    return changes


def _times(method: Method) -> Iterator[str]:
    """Yield the places of all times that go with the flow."""
    yield "method.run_length"
    yield "method.settling_time"
    yield from (f"method.programme[{n}].time" for n in range(len(method.programme)))
    for n in range(len(method.expected_peaks)):
        yield f"method.expected_peaks[{n}].retention_time"
        yield f"method.expected_peaks[{n}].width"
    for n, detector in enumerate(method.detectors):
        at = f"method.detectors[{n}]"
        yield from (f"{at}.begins", f"{at}.ends")
        for m in range(len(detector.transitions)):
            yield from (f"{at}.transitions[{m}].begins", f"{at}.transitions[{m}].ends")
    if method.makeup is not None:
        yield from (
            f"method.makeup.programme[{n}].time" for n in range(len(method.makeup.programme))
        )
