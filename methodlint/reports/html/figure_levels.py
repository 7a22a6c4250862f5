"""What is left of CO2 and bottles over a sequence, and where each ends."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from methodlint.documents.quantities.format import number
from methodlint.judging.case import BatchCase
from methodlint.judging.shared.supply_end import supply_end
from methodlint.rehearsal.batch.bottles import bottle_uses
from methodlint.rehearsal.run.states import FloatArray
from methodlint.reports.html.chart import STYLES, Chart, label_room
from methodlint.reports.html.clock_axis import clock_text, clock_ticks, clock_words
from methodlint.reports.html.element import element
from methodlint.reports.html.figure import Figure
from methodlint.reports.html.thinning import few_rows

__all__ = ["levels_figure"]


@dataclass(frozen=True, eq=False)
class _Level:
    """What is left of one thing over the clock.

    Attributes
    ----------
    whole
        Usable at the start, in the unit.
    left
        Shape (N,), at `clock`; below 0 where it has ended.
    end
        When it ends, in words; empty if it lasts.
    """

    name: str
    unit: str
    whole: float
    clock: FloatArray
    left: FloatArray
    end: str

    def at(self, clock: FloatArray) -> FloatArray:
        """Left at other times; a refill is a jump."""
        return np.interp(clock, self.clock, self.left)

    def shown(self, clock: float) -> float:
        """Left at one time, in the unit; nothing where less than a millionth is."""
        left = float(self.at(np.array([clock]))[0])
        return left if left > 1e-6 * self.whole else 0.0


def levels_figure(name: str, case: BatchCase) -> Figure | None:
    """CO2 and bottles over the sequence, with the injection where each ends."""
    batch = case.batch
    if batch.missing or batch.duration <= 0.0:
        return None
    levels = [level for level in _levels(case) if level.whole > 0.0]
    if not levels:
        return None
    clock = np.unique(np.concatenate([level.clock for level in levels]))
    crossings = [_crossing(level) for level in levels]
    clock = np.unique(np.concatenate([clock, [c for c in crossings if c is not None]]))
    shares = [np.maximum(level.at(clock) / level.whole, 0.0) * 100.0 for level in levels]
    kept = set(few_rows(clock, shares, 16))
    kept |= {int(np.searchsorted(clock, c)) for c in crossings if c is not None}
    rows_kept = sorted(kept)
    ends = [f"{level.name} {level.end}" for level in levels if level.end]
    words = "; ".join(ends) + "." if ends else "All of them last to the end."
    names = [f"{level.name} {level.end}".replace("injection ", "") for level in levels]
    names = [name.strip() for name in names]
    title = "What is left over the sequence"
    chart = Chart(
        name,
        title,
        f"Share of the usable CO2 and of each bottle that is left. {words}",
        (0.0, batch.duration),
        (0.0, 100.0),
        clock_words(batch),
        "% of usable",
        right=label_room(names),
    )
    chart.y_axis([0, 20, 40, 60, 80, 100])
    chart.x_axis(clock_ticks(batch))
    for number_, (name_, share) in enumerate(zip(names, shares, strict=True)):
        style = STYLES[number_ % len(STYLES)]
        chart.line(name_, [(float(clock[i]), float(share[i])) for i in rows_kept], style)
    _draw_ends(chart, levels, crossings)
    starts = [clock_ for _, clock_, _ in batch.injection_starts]
    headers = (
        clock_words(batch).split(" ")[0],
        "injection",
        *(f"{level.name} {level.unit}" for level in levels),
    )
    rows = [
        (
            clock_text(batch, float(clock[i])),
            str(int(np.searchsorted(starts, clock[i] + 1e-6))),
            *(number(level.shown(float(clock[i]))) for level in levels),
        )
        for i in rows_kept
    ]
    return Figure(title, words, chart.svg(), headers, tuple(rows))


def _draw_ends(chart: Chart, levels: list[_Level], crossings: list[float | None]) -> None:
    """Mark where things end with the injection, each higher than its neighbour before."""
    before, height = -math.inf, 0.0
    found = [(c, level.end) for c, level in zip(crossings, levels, strict=True) if c is not None]
    for crossing, end in sorted(found):
        x, y = chart.x(crossing), chart.y(0.0)
        height = height + 16.0 if x - before < 70.0 else 26.0
        before = x
        chart.add(element("path", d=f"M{x:.1f} {y:.1f}V{y - height:.1f}", class_="end"))
        said = end.removeprefix("ends at injection ").removeprefix("ends ")
        chart.note(x, y - height + 9.0, said, class_="end")


def _levels(case: BatchCase) -> Iterator[_Level]:
    batch = case.batch
    end = supply_end(case).end
    if end is not None:
        clock = [0.0, batch.equilibration, *(line.ends for line in batch.lines)]
        used = [0.0, batch.equilibration_co2]
        for line in batch.lines:
            used.append(used[-1] + line.co2)
        said = ""
        if end.expected_first is not None:
            first, last = max(end.expected_first, 1), end.expected_last or 1
            said = f"ends at injection {first}" + (f"-{last}" if last > first else "")
        yield _Level(
            "CO2",
            "kg",
            end.usable.expected,
            np.array(clock),
            end.usable.expected - np.array(used),
            said,
        )
    loaded = case.documents.get("solvents")
    if loaded is None:
        return
    uses, _ = bottle_uses(batch, loaded, case.documents.get("instrument"))
    for use in uses:
        if use.need <= 0.0 or not use.usable:
            continue
        clock = [at for at, _ in use.history]
        left = [(use.usable - taken) * 1e6 for _, taken in use.history]
        said = ""
        if use.runs_dry is not None:
            said = f"ends at injection {use.runs_dry}" if use.runs_dry else "ends before the first"
        yield _Level(use.bottle.line, "mL", use.usable * 1e6, np.array(clock), np.array(left), said)


def _crossing(level: _Level) -> float | None:
    """First time at which nothing is left."""
    below = np.flatnonzero(level.left < 0.0)
    if below.size == 0:
        return None
    at = int(below[0])
    if at == 0:
        return float(level.clock[0])
    before, behind = float(level.left[at - 1]), float(level.left[at])
    part = before / (before - behind) if before > behind else 0.0
    return float(level.clock[at - 1] + part * (level.clock[at] - level.clock[at - 1]))
