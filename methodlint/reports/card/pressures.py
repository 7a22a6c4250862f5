"""Pressures of a run on the card: per part at start, highest and end, against what it stands."""

from __future__ import annotations

import numpy as np

from methodlint.documents.quantities.format import show
from methodlint.judging.case import RunCase
from methodlint.rehearsal.run.phase_places import thinnest_band_words
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.train_places import TrainPlace, train_places
from methodlint.reports.card.blocks import CardRows, Table

__all__ = ["bar", "margin_words", "minutes", "pressure_block", "run_summary"]


def bar(pressure: float) -> str:
    """Figure of a pressure in bar, for a column whose head gives the unit."""
    return show(pressure, "pressure").removesuffix(" bar")


def pressure_block(name: str, case: RunCase) -> Table | CardRows:
    """Lay out the pressures of one method; says why if it could not be rehearsed."""
    if case.rehearsal is None or not case.run.done:
        lacks = [item.where for item in case.rehearsal.missing] if case.rehearsal else []
        why = f"could not be rehearsed: {', '.join(lacks)} missing" if lacks else "not rehearsed"
        return CardRows("pressures", f"PRESSURES  {name}", (("", why),))
    run = case.run
    rows = [_row(run, place) for place in train_places(run)]
    return Table(
        "pressures",
        "PRESSURES",
        f"{name}, bar absolute",
        ("part", "start", "highest", "band", "at min", "end", "limit"),
        tuple(rows),
        frozenset({0}),
        tuple(_foot(case)),
    )


def _row(run: Rehearsal, place: TrainPlace) -> tuple[str, ...]:
    worst = run.highest(place.pressure)
    limit = ""
    if place.limit is not None:
        least = float(np.min(place.limit))
        limit = bar(least) if np.isfinite(least) else ""
    return (
        place.name,
        bar(float(place.pressure[run.start_row])),
        bar(worst.value),
        worst.band_words.removeprefix("band ").removesuffix(" bar"),
        minutes(worst.time),
        bar(float(place.pressure[-1])),
        limit or "-",
    )


def _foot(case: RunCase) -> list[tuple[str, str]]:
    run = case.run
    found = [("phase boundary", margin_words(run))]
    limits = case.method.pressure_limits if case.method else None
    high = limits.high if limits is not None else None
    low = limits.low if limits is not None else None
    trip = case.get("instrument.trips.high_pressure")
    own = f" (the instrument stops at {show(trip.si, 'pressure')})" if trip is not None else ""
    words = [
        f"high {show(high.si, 'pressure')}"
        if high is not None
        else f"high: none in the method{own}",
        f"low {show(low.si, 'pressure')}" if low is not None else "low: none in the method",
    ]
    found.append(("limits to set", ", ".join(words)))
    drops = [run.drop_over(number) for number in run.train.columns]
    total = np.sum(drops, axis=0)
    found.append(("drop over column", f"{show(float(np.max(total)), 'pressure')} at most"))
    if run.plan.logged is not None:
        found.append(("column by its log", run.plan.logged.words))
    return found


def minutes(time: float) -> str:
    """Figure of a time in minutes, to a tenth."""
    return f"{time / 60.0:.1f}".removesuffix(".0")


def margin_words(run: Rehearsal) -> str:
    """Least margin to the phase boundary before the regulator, and when."""
    row = int(np.argmin(run.least_margin))
    margin = float(run.least_margin[row])
    if not np.isfinite(margin):
        return "one phase at any pressure"
    when = f"at {minutes(float(run.time[row]))} min"
    band = thinnest_band_words(run, row)
    if margin < 0.0:
        return f"{show(-margin, 'pressure')} below it {when} ({band}): two phases"
    return f"at least {show(margin, 'pressure')} above it, {when} ({band})"


def run_summary(case: RunCase) -> str:
    """Highest pump pressure, margin to the boundary, CO2 of one run."""
    run = case.run
    pump = run.highest(run.pump_pressure)
    return (
        f"pump up to {show(pump.value, 'pressure')} ({pump.band_words}) at "
        f"{minutes(pump.time)} min; phase boundary: {margin_words(run)}; "
        f"{show(run.co2_per_cycle, 'mass', 'g')} CO2 a run"
        + (f"; column by {run.plan.logged.words}" if run.plan.logged is not None else "")
    )
