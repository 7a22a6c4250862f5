"""Entries of a logbook with what was predicted for them, and which of them cannot be true."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from methodlint.documents.quantities.format import show
from methodlint.rehearsal.history.predicted import Predicted

__all__ = ["Doubt", "LogReading", "PeakRead", "doubts", "without"]


@dataclass(frozen=True, slots=True)
class PeakRead:
    """One named peak: retention time [s], plate number and tailing [-], each None if not read."""

    name: str
    retention: float | None
    plates: float | None
    tailing: float | None


@dataclass(frozen=True)
class LogReading:
    """One entry in SI; None where nothing was read, empty where nothing is named.

    Attributes
    ----------
    entry
        Number in the logbook.
    injections
        Made in it.
    start, highest
        Pressure at the pumps [Pa].
    outlet, oven
        As read [Pa], [K].
    as_set
        Whether the pressure at the start was read at the method's own composition.
    highest_as_set
        Whether the highest was read at a composition that was predicted for it.
    weight_before, weight_after
        Of the cylinder on the scale [kg].
    changed
        Whether another cylinder was connected before it.
    test
        Whether the column passed a test; None without one.
    predicted
        What was predicted for its method, bench and column.
    co2
        Predicted for the whole entry [kg].
    highest_allowed
        Rating of the pumps [Pa].
    most_plates
        Of a bed whose plates are one particle high [-].
    """

    entry: int
    moment: datetime.datetime
    bench: str = ""
    method: str = ""
    sequence: str = ""
    column: str = ""
    supply: str = ""
    injections: int = 0
    start: float | None = None
    highest: float | None = None
    outlet: float | None = None
    oven: float | None = None
    as_set: bool = True
    highest_as_set: bool = True
    peaks: tuple[PeakRead, ...] = ()
    weight_before: float | None = None
    weight_after: float | None = None
    changed: bool = False
    test: bool | None = None
    predicted: Predicted | None = None
    co2: float | None = None
    highest_allowed: float | None = None
    most_plates: float | None = None

    @property
    def has_run(self) -> bool:
        """Whether anything ran in this entry: one that only weighs takes no CO2."""
        read = (self.start, self.highest, *self.peaks)
        return bool(self.sequence or self.injections or any(one is not None for one in read))


@dataclass(frozen=True, slots=True)
class Doubt:
    """A reading that cannot be true: its entry, its key, and why."""

    entry: int
    key: str
    why: str


def doubts(readings: Sequence[LogReading], today: datetime.date | None) -> list[Doubt]:
    """Find readings that cannot be true, in the order of the entries."""
    found = [doubt for one in readings for doubt in _of_one(one, today)]
    return sorted(found, key=lambda doubt: (doubt.entry, doubt.key))


def _of_one(one: LogReading, today: datetime.date | None) -> Iterator[Doubt]:
    if today is not None and one.moment.date() > today:
        yield Doubt(one.entry, "date", f"{one.moment:%Y-%m-%d} is later than {today}")
    yield from _pressures(one)
    predicted = one.predicted
    for number, peak in enumerate(one.peaks):
        key = "retention_time" if len(one.peaks) == 1 else f"peaks[{number}]"
        if peak.retention is not None and predicted is not None:
            least = 0.8 * predicted.hold_up_time
            if peak.retention < least:
                yield Doubt(
                    one.entry,
                    key,
                    f"{show(peak.retention, 'time', 'min')} is before the mobile phase itself "
                    f"comes out, {show(predicted.hold_up_time, 'time', 'min')}",
                )
        if peak.plates is not None and one.most_plates and peak.plates > one.most_plates:
            yield Doubt(
                one.entry,
                "plates",
                f"{peak.plates:.0f} plates are more than the {one.most_plates:.0f} of a bed whose "
                "plates are one particle high",
            )
    before, after = one.weight_before, one.weight_after
    if before is not None and after is not None and after > before + 0.15 and not one.changed:
        yield Doubt(
            one.entry,
            "weight_after",
            f"{show(after, 'mass', 'kg')} after the run, {show(before, 'mass', 'kg')} before it, "
            "and no change of the cylinder is written",
        )


def _pressures(one: LogReading) -> Iterator[Doubt]:
    predicted = one.predicted
    outlet = one.outlet if one.outlet is not None else predicted.outlet if predicted else None
    for key, pressure in (("start_pressure", one.start), ("highest_pressure", one.highest)):
        if pressure is None:
            continue
        said = show(pressure, "pressure", "bar")
        if one.highest_allowed is not None and pressure > 1.02 * one.highest_allowed:
            most = show(one.highest_allowed, "pressure", "bar")
            yield Doubt(one.entry, key, f"{said} is above the rating of the pumps, {most}")
        elif outlet is not None and pressure <= outlet:
            least = show(outlet, "pressure", "bar")
            yield Doubt(one.entry, key, f"{said} leaves no drop above the regulator's {least}")
        elif predicted is not None and (
            one.highest_as_set if key == "highest_pressure" else one.as_set
        ):
            highest = key == "highest_pressure"
            if predicted.factor(pressure, one.outlet, highest=highest) is None:
                own = predicted.at_highest if highest else predicted.at_start
                yield Doubt(
                    one.entry,
                    key,
                    f"{said} is met by no column from a quarter to five times the resistance of "
                    f"its card; predicted {show(own, 'pressure', 'bar')}",
                )
    if one.start is not None and one.highest is not None and one.highest < 0.98 * one.start:
        yield Doubt(
            one.entry,
            "highest_pressure",
            f"{show(one.highest, 'pressure', 'bar')} is below the pressure at the start, "
            f"{show(one.start, 'pressure', 'bar')}",
        )


def without(readings: Sequence[LogReading], wrong: Sequence[Doubt]) -> list[LogReading]:
    """Readings in order of time, less those values that cannot be true."""
    from dataclasses import replace

    by_entry: dict[int, set[str]] = {}
    for doubt in wrong:
        by_entry.setdefault(doubt.entry, set()).add(doubt.key)
    names = {
        "start_pressure": {"start": None},
        "highest_pressure": {"highest": None},
        "weight_after": {"weight_after": None},
    }
    kept = []
    for one in readings:
        keys = by_entry.get(one.entry, set())
        if "date" in keys:
            continue
        for key in keys & names.keys():
            one = replace(one, **names[key])  # type: ignore[arg-type]
        if any(key.startswith(("retention", "plates", "peaks")) for key in keys):
            one = replace(one, peaks=())
        kept.append(one)
    return sorted(kept, key=lambda one: (one.moment, one.entry))
