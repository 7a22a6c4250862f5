"""What a review says beside its findings: columns, peaks, runs and cylinders, as blocks."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from methodlint.checking.review import Review
from methodlint.documents.quantities.format import counted, show
from methodlint.rehearsal.history.change import Point
from methodlint.rehearsal.history.columns import ColumnHistory, PeakHistory
from methodlint.rehearsal.history.cylinders import Weighed
from methodlint.rehearsal.history.readings import LogReading
from methodlint.reports.card.blocks import CardRows, Table

__all__ = ["inside", "measured_and_predicted", "review_blocks", "span_words"]

_LATEST = 12


def span_words(review: Review) -> str:
    """Number of entries and the days that they reach over."""
    readings = review.history.readings
    if not readings:
        return "no entries with a day"
    runs = sum(max(one.injections, 1) for one in readings)
    return (
        f"{counted(len(readings), 'entry')} from {readings[0].moment:%Y-%m-%d} to "
        f"{readings[-1].moment:%Y-%m-%d}, {counted(runs, 'injection')}"
    )


def review_blocks(review: Review) -> Iterator[Table | CardRows]:
    """Blocks of a review, in the order in which they are printed."""
    yield from _columns(review)
    yield from _peaks(review)
    yield from _runs(review)
    yield from _weighed(review)


def measured_and_predicted(one: LogReading) -> Iterator[tuple[str, float, float, float, float]]:
    """Which pressure, as measured, as predicted, and the band below and above [Pa]."""
    if one.predicted is None:
        return
    if one.start is not None and one.as_set:
        yield "start", one.start, one.predicted.at_start, *one.predicted.start_band
    if one.highest is not None:
        yield "highest", one.highest, one.predicted.at_highest, *one.predicted.highest_band


def inside(measured: float, expected: float, below: float, above: float) -> bool:
    """Whether a measured pressure lies in the band of the predicted one."""
    return expected - below <= measured <= expected + above


def _columns(review: Review) -> Iterator[Table]:
    known = [one for one in review.history.columns if one.points]
    if not known:
        return
    rows = tuple(_column_row(one) for one in known)
    headers = ("column", "bench", "readings", "permeability", "now", "band", "injections")
    foot = tuple(
        (
            "left out",
            f"{one.column} on {one.bench}: "
            + ", ".join(f"{point.moment:%Y-%m-%d}" for point in one.alone[:6])
            + (" and more" if len(one.alone) > 6 else "")
            + ", far from the readings before and after",
        )
        for one in known
        if one.alone
    )
    yield Table("columns", "COLUMNS", "", headers, rows, frozenset({0, 1}), foot)


def _column_row(one: ColumnHistory) -> tuple[str, ...]:
    kept = [point.value for point in one.points if point not in one.alone]
    latest = sorted(kept[-5:])[len(kept[-5:]) // 2] if kept else 0.0
    spread = f"+-{200.0 * one.scatter / math.sqrt(min(len(kept), 5) or 1):.0f} %"
    permeability = "-" if math.isnan(one.permeability) else f"{one.permeability * 1e15:.3g}e-15 m2"
    now = f"{100.0 * math.expm1(latest):+.0f} %" if one.first else "too few readings"
    band = spread if one.first else "-"
    return one.column, one.bench, str(len(kept)), permeability, now, band, str(one.injections)


def _peaks(review: Review) -> Iterator[CardRows]:
    known = [one for one in review.history.peaks if len(one.retention) + len(one.plates) > 1]
    if known:
        yield CardRows("peaks", "PEAKS", tuple((one.name, _peak_words(one)) for one in known))


def _peak_words(one: PeakHistory) -> str:
    said = []
    if one.retention:
        at_first = show(one.first_retention, "time", "min")
        said.append(f"{at_first} at first, now {_latest(one.retention):+.1f} %")
    if one.plates:
        said.append(f"{one.first_plates:.0f} plates at first, now {_latest(one.plates):+.0f} %")
    return f"{one.method} on {one.column}, {one.bench}: {'; '.join(said)}"


def _latest(points: Sequence[Point]) -> float:
    """Middle of the latest five readings against the first ones [%]."""
    values = sorted(point.value for point in points[-5:])
    return 100.0 * math.expm1(values[len(values) // 2])


def _runs(review: Review) -> Iterator[Table]:
    pairs = [(one, pair) for one in review.history.readings for pair in measured_and_predicted(one)]
    if not pairs:
        return
    one_bench = len({one.bench for one, _ in pairs}) == 1
    within = sum(inside(*pair[1:]) for _, pair in pairs)
    rows = tuple(
        (
            f"{one.moment:%Y-%m-%d}",
            one.method if one_bench else f"{one.method} on {one.bench}",
            pair[0],
            f"{pair[1] / 1e5:.0f}",
            f"{pair[2] / 1e5:.0f}",
            f"-{pair[3] / 1e5:.0f} to +{pair[4] / 1e5:.0f}",
        )
        for one, pair in pairs[-_LATEST:]
    )
    headers = ("day", "method", "at", "measured", "predicted", "band")
    said = f"{within} of {counted(len(pairs), 'pressure')} inside the band that was predicted"
    foot = (("in all", said),)
    subject = "bar absolute, the latest" if len(pairs) > _LATEST else "bar absolute"
    yield Table("runs", "MEASURED AND PREDICTED", subject, headers, rows, frozenset({1, 2}), foot)


def _weighed(review: Review) -> Iterator[CardRows]:
    latest: dict[tuple[str, int], Weighed] = {}
    for one in review.history.weighed:
        if one.change_not_logged:
            continue
        key = one.supply, one.cylinder
        if one.whole or key not in latest:
            latest[key] = one
    if not latest:
        return
    rows = []
    for (supply, cylinder), one in latest.items():
        said = (
            f"{show(one.weighed, 'mass', 'kg')} by weight, "
            f"{show(one.predicted, 'mass', 'kg')} predicted for {counted(one.runs, 'entry')}, "
            f"{one.begins:%Y-%m-%d} to {one.ends:%Y-%m-%d}"
        )
        if one.unknown:
            said += f"; {counted(one.unknown, 'entry')} of them not predicted"
        rows.append((f"{supply}, cylinder {cylinder}", said))
    yield CardRows("weighed", "CO2 BY WEIGHT", tuple(rows))
