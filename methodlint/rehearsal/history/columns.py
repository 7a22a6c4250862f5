"""Columns over time: resistance, retention and plates against their first good readings."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from methodlint.fluids.co2 import properties as co2
from methodlint.rehearsal.history.change import (
    LEAST_READINGS,
    LevelChange,
    Point,
    change_of,
    first_good,
    outliers,
)
from methodlint.rehearsal.history.readings import LogReading
from methodlint.rehearsal.history.thresholds import Thresholds
from methodlint.rehearsal.history.trends import noise_of

__all__ = ["BenchStep", "ColumnHistory", "PeakHistory", "columns_of", "peaks_of", "steps_of"]

PRESSURE_NOISE = 0.015
"""Least scatter of a resistance [-] (common practice, no source)."""

RETENTION_NOISE = 0.003
"""Least scatter of a retention time [-] (common practice, no source)."""

PLATES_NOISE = 0.03
"""Least scatter of a plate number [-] (common practice, no source)."""

_DAY = 86400.0


@dataclass(frozen=True)
class ColumnHistory:
    """One column on one bench.

    Attributes
    ----------
    points
        Logarithm of the resistance over its first level; methods are brought to one level.
    factors
        Resistance over that of the card by entry, as read [-].
    permeability
        Of the bed at first [m2], particle size squared over flow resistance.
    alone
        Readings that stand apart from their neighbours; no change hangs on one of them.
    rise, fall
        What has changed for certain.
    first
        Readings that set the level; 0 if they are too few.
    excess
        What the latest readings lie above the first level [Pa].
    """

    column: str
    bench: str
    points: tuple[Point, ...]
    factors: dict[int, float]
    permeability: float
    scatter: float
    alone: tuple[Point, ...]
    rise: LevelChange | None
    fall: LevelChange | None
    first: int
    excess: float
    injections: int = 0


@dataclass(frozen=True)
class PeakHistory:
    """One named peak of a method on one column and bench.

    Attributes
    ----------
    retention, plates
        Logarithms over the first level.
    retention_change, plates_fall
        What has changed for certain.
    density
        LevelChange of the density of CO2 at the regulator since the first readings [-]; None if it
        was not read.
    tailing
        At first and of late [-]; None if it was not read.
    """

    column: str
    bench: str
    method: str
    name: str
    retention: tuple[Point, ...] = ()
    plates: tuple[Point, ...] = ()
    first_retention: float = math.nan
    first_plates: float = math.nan
    retention_change: LevelChange | None = None
    plates_fall: LevelChange | None = None
    density: float | None = None
    tailing: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class BenchStep:
    """One column that reads another resistance on another bench.

    Attributes
    ----------
    size
        Resistance on the second bench over that on the first one, less 1 [-].
    """

    column: str
    first: str
    second: str
    method: str
    size: float
    readings: tuple[int, int]
    moment: Point


@dataclass
class _Channel:
    """Readings of one method, of one kind, on their own level."""

    waiting: list[tuple[LogReading, float]] = field(default_factory=list)
    level: float | None = None


def columns_of(readings: Sequence[LogReading], limits: Thresholds) -> list[ColumnHistory]:
    """Follow every column on every bench, in order of name."""
    groups: dict[tuple[str, str], list[LogReading]] = {}
    for one in readings:
        if one.column and one.bench:
            groups.setdefault((one.column, one.bench), []).append(one)
    return [_column(*key, groups[key], limits) for key in sorted(groups)]


def _factor_of(one: LogReading) -> tuple[str, float] | None:
    """Resistance of one reading over that of the card, and which kind of reading gives it."""
    if one.predicted is None:
        return None
    if one.start is not None and one.as_set:
        factor = one.predicted.factor(one.start, one.outlet)
        return None if factor is None else ("start", factor)
    if one.highest is not None and one.highest_as_set:
        factor = one.predicted.factor(one.highest, one.outlet, highest=True)
        return None if factor is None else ("highest", factor)
    return None


def _column(column: str, bench: str, own: list[LogReading], limits: Thresholds) -> ColumnHistory:
    factors: dict[int, float] = {}
    points: list[Point] = []
    channels: dict[tuple[str, str], _Channel] = {}
    for one in own:
        found = _factor_of(one)
        if found is None:
            continue
        kind, factor = found
        factors[one.entry] = factor
        channel = channels.setdefault((one.method, kind), _Channel())
        if channel.level is None:
            channel.waiting.append((one, math.log(factor)))
            if len(channel.waiting) < LEAST_READINGS:
                continue
            middle = float(np.median([value for _, value in channel.waiting]))
            # Another method begins at the level that the column has then.
            before = [point.value for point in points[-5:]]
            channel.level = middle - (float(np.median(before)) if before else 0.0)
            for waited, value in channel.waiting:
                points.append(Point(waited.moment, value - channel.level, waited.entry))
            points.sort(key=lambda point: (point.moment, point.entry))
        else:
            points.append(Point(one.moment, math.log(factor) - channel.level, one.entry))
    values = [point.value for point in points]
    noise = noise_of(values, PRESSURE_NOISE)
    alone = outliers(points, noise)
    kept = [point for point in points if point not in alone]
    first = first_good(kept, limits.first_runs)
    main = next((one.predicted for one in own if one.predicted is not None), None)
    start = [factors[point.entry] for point in kept[: first or len(kept)]]
    level = float(np.median(start)) if start else math.nan
    excess = 0.0
    if first and main is not None:
        latest = float(np.median([p.value for p in kept[-5:]]))
        base = float(np.median([p.value for p in kept[:first]]))
        excess = main.drop * level * math.expm1(latest - base)
    permeability = math.nan
    if main is not None and start:
        permeability = main.particle_size**2 / (main.flow_resistance * level)
    change = limits.resistance_change
    return ColumnHistory(
        column,
        bench,
        tuple(points),
        factors,
        permeability,
        noise,
        tuple(alone),
        change_of(kept, change, limits.first_runs, PRESSURE_NOISE, rise=True),
        change_of(kept, change, limits.first_runs, PRESSURE_NOISE, rise=False),
        first,
        excess,
        sum(one.injections for one in own),
    )


def steps_of(readings: Sequence[LogReading], limits: Thresholds) -> list[BenchStep]:
    """Find columns that read another resistance on another bench with the same method."""
    groups: dict[tuple[str, str], list[tuple[LogReading, float]]] = {}
    for one in readings:
        found = _factor_of(one)
        if found is not None and one.column and one.bench:
            groups.setdefault((one.column, one.method), []).append((one, math.log(found[1])))
    steps: list[BenchStep] = []
    told: set[tuple[str, frozenset[str]]] = set()
    for (column, method), own in sorted(groups.items()):
        spans = _spans(own)
        for (_, before), (_, after) in pairwise(spans):
            if min(len(before), len(after)) < LEAST_READINGS:
                continue
            near, next_ = before[-5:], after[:5]
            apart = float(np.median([v for _, v in next_]) - np.median([v for _, v in near]))
            noise = noise_of([value for _, value in own], PRESSURE_NOISE)
            first, second = before[-1][0].bench, after[0][0].bench
            pair = column, frozenset((first, second))
            if abs(apart) > max(math.log1p(limits.resistance_change), 4.0 * noise) and (
                pair not in told
            ):
                told.add(pair)
                at = Point(after[0][0].moment, apart, after[0][0].entry)
                counts = len(near), len(next_)
                steps.append(
                    BenchStep(column, first, second, method, math.expm1(apart), counts, at)
                )
    return steps


def _spans(
    own: Iterable[tuple[LogReading, float]],
) -> list[tuple[str, list[tuple[LogReading, float]]]]:
    """Readings in a row on one bench."""
    spans: list[tuple[str, list[tuple[LogReading, float]]]] = []
    for one, value in own:
        if not spans or spans[-1][0] != one.bench:
            spans.append((one.bench, []))
        spans[-1][1].append((one, value))
    return spans


def peaks_of(readings: Sequence[LogReading], limits: Thresholds) -> list[PeakHistory]:
    """Follow every named peak of every method, column and bench."""
    groups: dict[tuple[str, str, str, str], list[tuple[LogReading, int]]] = {}
    for one in readings:
        for number, peak in enumerate(one.peaks):
            key = one.column, one.bench, one.method, peak.name
            groups.setdefault(key, []).append((one, number))
    return [_peak(key, groups[key], limits) for key in sorted(groups)]


def _peak(
    key: tuple[str, str, str, str], own: list[tuple[LogReading, int]], limits: Thresholds
) -> PeakHistory:
    times = [(one, one.peaks[n].retention) for one, n in own]
    counts = [(one, one.peaks[n].plates) for one, n in own]
    tails = [one.peaks[n].tailing for one, n in own]
    retention, first_time = _ratios(times, limits)
    plates, first_count = _ratios(counts, limits)
    kept = _kept(retention, RETENTION_NOISE)
    change = None
    for rise in (True, False):
        change = change or change_of(
            kept, limits.retention_change, limits.first_runs, RETENTION_NOISE, rise=rise
        )
    fall = change_of(
        _kept(plates, PLATES_NOISE), limits.plates_loss, limits.first_runs, PLATES_NOISE, rise=False
    )
    known = [tail for tail in tails if tail is not None]
    tailing = None
    if len(known) >= 2 * LEAST_READINGS:
        tailing = (
            float(np.median(known[: limits.first_runs])),
            float(np.median(known[-LEAST_READINGS:])),
        )
    return PeakHistory(
        *key,
        retention,
        plates,
        first_time,
        first_count,
        change,
        fall,
        _density_change([one for one, _ in own], limits),
        tailing,
    )


def _kept(points: Sequence[Point], least: float) -> list[Point]:
    alone = outliers(points, noise_of([point.value for point in points], least))
    return [point for point in points if point not in alone]


def _ratios(
    own: list[tuple[LogReading, float | None]], limits: Thresholds
) -> tuple[tuple[Point, ...], float]:
    values = [(one, math.log(value)) for one, value in own if value is not None]
    points = [Point(one.moment, value, one.entry) for one, value in values]
    if not points:
        return (), math.nan
    first = first_good(points, limits.first_runs) or len(points)
    level = float(np.median([point.value for point in points[:first]]))
    moved = tuple(Point(point.moment, point.value - level, point.entry) for point in points)
    return moved, math.exp(level)


def _density_change(own: list[LogReading], limits: Thresholds) -> float | None:
    """LevelChange of CO2's density at the regulator between the first readings and the latest."""
    read = []
    for one in own:
        oven = one.oven if one.oven is not None else one.predicted.oven if one.predicted else None
        if one.outlet is not None and oven is not None:
            read.append((oven, one.outlet))
    if len(read) < limits.first_runs + LEAST_READINGS:
        return None
    ends = np.array([*read[: limits.first_runs], *read[-LEAST_READINGS:]])
    found = co2.density(ends[:, 0], ends[:, 1])
    first, latest = np.median(found[: limits.first_runs]), np.median(found[limits.first_runs :])
    return float(latest / first - 1.0)
