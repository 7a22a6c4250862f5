"""Everything that a logbook tells, put together once."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass

from methodlint.rehearsal.history.columns import (
    BenchStep,
    ColumnHistory,
    PeakHistory,
    columns_of,
    peaks_of,
    steps_of,
)
from methodlint.rehearsal.history.cylinders import Weighed, weighed_against_predicted
from methodlint.rehearsal.history.readings import Doubt, LogReading, doubts, without
from methodlint.rehearsal.history.thresholds import Thresholds

__all__ = ["BlockedTubes", "History", "history_of"]


@dataclass(frozen=True, slots=True)
class BlockedTubes:
    """A bench on which the pressure rises with every column: its tubes, not the columns.

    Attributes
    ----------
    columns
        Names of the columns that read more.
    excess
        What they read more, in the middle of them [Pa].
    began
        When the first of them began to.
    """

    bench: str
    columns: tuple[str, ...]
    excess: float
    began: datetime.datetime
    entry: int


@dataclass(frozen=True)
class History:
    """A logbook reviewed.

    Attributes
    ----------
    readings
        In order of time, without values that cannot be true.
    doubts
        Those values.
    undated
        Numbers of entries without a day.
    steps
        Columns that read otherwise on another bench.
    blocked
        Benches whose tubes block.
    """

    readings: tuple[LogReading, ...]
    doubts: tuple[Doubt, ...]
    undated: tuple[int, ...]
    columns: tuple[ColumnHistory, ...]
    peaks: tuple[PeakHistory, ...]
    steps: tuple[BenchStep, ...]
    blocked: tuple[BlockedTubes, ...]
    weighed: tuple[Weighed, ...]
    thresholds: Thresholds


def history_of(
    readings: Sequence[LogReading],
    undated: Sequence[int],
    limits: Thresholds,
    today: datetime.date | None = None,
) -> History:
    """Review readings.

    Parameters
    ----------
    readings
        In the order of the logbook, with what was predicted for them.
    undated
        Numbers of entries that have no day and take no part.
    limits
        From which change on something is reported.
    today
        Day after which nothing can have been read; None if it is not known.
    """
    wrong = doubts(readings, today)
    kept = without(readings, wrong)
    columns = columns_of(kept, limits)
    return History(
        tuple(kept),
        tuple(wrong),
        tuple(undated),
        tuple(columns),
        tuple(peaks_of(kept, limits)),
        tuple(steps_of(kept, limits)),
        tuple(_blocked(columns)),
        tuple(weighed_against_predicted(kept, limits)),
        limits,
    )


def _blocked(columns: Sequence[ColumnHistory]) -> list[BlockedTubes]:
    """Benches on which all columns rise at one time, by about the same pressure."""
    found = []
    for bench in sorted({one.bench for one in columns}):
        own = [one for one in columns if one.bench == bench and one.first]
        risen = [one for one in own if one.rise is not None and not one.rise.has_returned]
        if len(risen) < 2:
            continue
        began = min(one.rise.began.moment for one in risen if one.rise)
        later = [one for one in own if one.points and one.points[-1].moment >= began]
        excess = sorted(one.excess for one in risen)
        alike = excess[0] > 0.4 * excess[-1]
        if len(risen) < len(later) or not alike:
            continue
        first = min(risen, key=lambda one: one.rise.began.moment if one.rise else began)
        assert first.rise is not None
        found.append(
            BlockedTubes(
                bench,
                tuple(one.column for one in risen),
                excess[len(excess) // 2],
                began,
                first.rise.began.entry,
            )
        )
    return found
