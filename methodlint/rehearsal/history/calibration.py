"""From the logged pressures of a column to the flow resistance that a check uses."""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping, Sequence

import numpy as np

from methodlint.documents.quantities.format import counted
from methodlint.hydraulics.calibration import Calibration
from methodlint.rehearsal.history.change import LEAST_READINGS, Point, outliers
from methodlint.rehearsal.history.columns import PRESSURE_NOISE
from methodlint.rehearsal.history.history import History
from methodlint.rehearsal.history.readings import LogReading
from methodlint.rehearsal.history.trends import noise_of
from methodlint.rehearsal.plan.logged_column import LoggedColumn, LoggedColumns

__all__ = ["logged_column", "logged_columns"]

LATEST = 6
"""Readings that count: a column that ages is not what it was a year ago."""

SAME_BENCH = 0.03
"""Least band of readings on the bench itself: sensor and tubes (common practice, no source)."""

OTHER_BENCH = 0.05
"""Of readings on another bench, corrected for its tubes (common practice, no source)."""

_DAY = 86400.0

Resistance = tuple[LogReading, float]


def logged_column(
    history: History, column: str, bench: str, method: str, day: datetime.date | None
) -> LoggedColumn | None:
    """Say what logged pressures tell of a column.

    Readings on the bench itself come first, else those on other benches, whose tubes are taken
    off. Those with the same method come before those with others. The middle of the latest ones
    counts, without those that stand alone; towards more pressure the very latest counts at once.

    Parameters
    ----------
    day
        Of the run; what was read later takes no part, and a rise goes on until then.

    Returns
    -------
    LoggedColumn or None
        None where nothing was read of this column.
    """
    own = [
        one
        for one in history.readings
        if one.column == column and (day is None or one.moment.date() <= day)
    ]
    here = [one for one in own if one.bench == bench]
    same = _enough(here)
    used = here if same else own
    alike = [one for one in used if one.method == method]
    used = alike if _enough(alike) else used
    channels = _channels(used)
    if not channels:
        return None
    floor = SAME_BENCH if same else OTHER_BENCH
    calibrations: list[Calibration] = []
    latest, band, counts, left_out = 0.0, floor, 0, 0
    days: list[datetime.datetime] = []
    for (_, _, share), found in sorted(channels.items()):
        points = [Point(one.moment, math.log(value), one.entry) for one, value in found]
        noise = noise_of([point.value for point in points], PRESSURE_NOISE)
        alone = {point.entry for point in outliers(points, noise)}
        rise = _rise_until(history, column, bench, found[-1][0], day)
        latest = max(latest, rise * max(value for _, value in _not_yet_answered(found)))
        kept = [one for one in found if one[0].entry not in alone][-LATEST:]
        if len(kept) < LEAST_READINGS or len({one.moment.date() for one, _ in kept}) < 2:
            continue
        left_out += len(alone)
        counts += len(kept)
        days += [one.moment for one, _ in kept]
        middle = float(np.median([value for _, value in kept]))
        calibrations.append(Calibration(middle, share))
        band = max(band, math.hypot(floor, 2.0 * noise / math.sqrt(len(kept))))
    if not calibrations:
        return LoggedColumn((), floor, latest, _few_words(used))
    where = bench if same else f"{', '.join(sorted({one.bench for one in used}))}, less its tubes"
    age = f", the latest {(day - max(days).date()).days} d before" if day is not None else ""
    words = (
        f"{counted(counts, 'logged pressure')} on {where}, {min(days):%Y-%m-%d} to "
        f"{max(days):%Y-%m-%d}{age}, band {100.0 * band:.0f} %"
    )
    if left_out:
        words += f"; {left_out} left out, far from the others"
    return LoggedColumn(tuple(calibrations), band, latest, words)


def logged_columns(
    histories: Mapping[str, History], bench: str, method: str, day: datetime.date | None
) -> LoggedColumns:
    """What logbooks tell of columns, by their names; see `logged_column`."""
    found = {
        name: logged_column(history, name, bench, method, day)
        for name, history in histories.items()
    }
    return tuple((name, one) for name, one in sorted(found.items()) if one is not None)


def _enough(readings: Sequence[LogReading]) -> bool:
    read = [one for one in readings if one.start is not None or one.highest is not None]
    return len(read) >= LEAST_READINGS and len({one.moment.date() for one in read}) >= 2


def _channels(
    used: Sequence[LogReading],
) -> dict[tuple[str, str, float], list[Resistance]]:
    """Flow resistances by method, kind of reading and composition, in order of time."""
    found: dict[tuple[str, str, float], list[Resistance]] = {}
    for one in used:
        predicted = one.predicted
        if predicted is None:
            continue
        kinds = [("start", one.start, predicted.share)] if one.as_set else []
        # A run at one composition has one pressure, read twice.
        same = abs(predicted.highest_share - predicted.share) <= 0.02
        if one.highest_as_set and (not same or one.start is None):
            kinds.append(("highest", one.highest, predicted.highest_share))
        for kind, pressure, share in kinds:
            if pressure is None:
                continue
            factor = predicted.factor(pressure, one.outlet, highest=kind == "highest")
            if factor is not None:
                key = one.method, kind, share
                found.setdefault(key, []).append((one, factor * predicted.flow_resistance))
    return found


def _not_yet_answered(found: Sequence[Resistance]) -> Sequence[Resistance]:
    """Latest readings: a high one counts until three on two days have come after it."""
    for number in range(LEAST_READINGS, len(found)):
        if len({one.moment.date() for one, _ in found[-number:]}) >= 2:
            return found[-number:]
    return found


def _rise_until(
    history: History, column: str, bench: str, last: LogReading, day: datetime.date | None
) -> float:
    """Factor by which a rise that was found goes on from the latest reading to the day of a run."""
    for one in history.columns:
        change = one.rise
        if (one.column, one.bench) != (column, bench) or change is None or change.slope is None:
            continue
        days = (day - last.moment.date()).days if day is not None else 0
        return math.exp(min(max(change.slope.high, 0.0) * max(days, 0), 0.5))
    return 1.0


def _few_words(used: Sequence[LogReading]) -> str:
    read = [one for one in used if one.start is not None or one.highest is not None]
    return (
        f"{counted(len(read), 'logged pressure')}, {read[-1].moment:%Y-%m-%d} the latest: too few to "
        "narrow a band, three on two days do"
    )
