"""From the entries of a logbook to readings: names followed once, every run predicted once."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from typing import Protocol, cast

from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.kinds.logbook import Logbook, LogEntry
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import Sequence
from methodlint.documents.library import Library
from methodlint.documents.loading import Loaded
from methodlint.documents.not_found import NotFound
from methodlint.documents.text.places import Path
from methodlint.rehearsal.batch.lines import Batch, rehearse_batch
from methodlint.rehearsal.history.history import History, history_of
from methodlint.rehearsal.history.predicted import Predicted, predict
from methodlint.rehearsal.history.readings import LogReading, PeakRead
from methodlint.rehearsal.history.thresholds import Thresholds
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.run_plan import RunPlan, plan_run

__all__ = ["CardLogbooks", "Refers", "history_of_logbook"]

_SAME_SHARE = 0.005
_SAME_SHARE_ON_THE_WAY = 0.02
"""By how much a modifier share may differ and still be the method's own [-]."""


class Refers(Protocol):
    """Follows names to documents."""

    library: Library

    def refer(self, kind: str, name: str, document: Loaded, path: Path) -> Loaded | Missing:
        """The document of a name, or what is missing."""


class Checks(Refers, Protocol):
    """What a check knows beside the documents."""

    as_of: datetime.date | None

    @property
    def lab(self) -> Loaded | None:
        """The lab's document."""


class _Unreported:
    """Follows names without a report: what a logbook names is reported by its review."""

    def __init__(self, library: Library) -> None:
        self.library = library

    def refer(self, kind: str, name: str, document: Loaded, path: Path) -> Loaded | Missing:
        """The document of a name, or what is missing."""
        found = self.library.find(kind, name, document)
        return Missing(kind, document, found.reason) if isinstance(found, NotFound) else found


def history_of_logbook(
    refers: Refers,
    logbook: Loaded,
    lab: Loaded | None,
    today: datetime.date | None,
    *,
    with_co2: bool = True,
) -> tuple[History, dict[str, Loaded]]:
    """Review the entries of a logbook.

    Parameters
    ----------
    with_co2
        Whether the CO2 of its sequences is predicted: each of them is read for it.

    Returns
    -------
    history : History
    columns : dict
        Column cards by the names that entries use.
    """
    resolved = _Resolved(refers, logbook, with_co2=with_co2)
    typed = cast(Logbook, logbook.model)
    undated = [n for n, entry in enumerate(typed.entries) if entry.date is None]
    readings = [
        resolved.reading(number, entry, entry.date.replace(tzinfo=None))
        for number, entry in enumerate(typed.entries)
        if entry.date is not None
    ]
    return history_of(readings, undated, thresholds_of(lab), today), resolved.columns


def thresholds_of(lab: Loaded | None) -> Thresholds:
    """Thresholds of a lab's policy; the usual ones where it sets none."""
    policy = cast(Lab, lab.model).policy if lab is not None else None
    own = policy.review if policy is not None else None
    usual = Thresholds()
    if own is None:
        return usual
    return Thresholds(
        own.first_runs or usual.first_runs,
        own.resistance_change.si if own.resistance_change else usual.resistance_change,
        own.plates_loss.si if own.plates_loss else usual.plates_loss,
        own.retention_change.si if own.retention_change else usual.retention_change,
        own.co2_difference.si if own.co2_difference else usual.co2_difference,
    )


Names = tuple[str | None, str | None, str | None]
"""Method, instrument and column of an entry, as written."""


class CardLogbooks:
    """Logbooks that column cards name, each reviewed once in a check."""

    def __init__(self) -> None:
        self._histories: dict[str, History] = {}

    def of(self, check: Checks, columns: Iterable[Loaded]) -> dict[str, History]:
        """Histories by the names of the columns whose cards name a logbook."""
        found = {}
        for column in columns:
            name = cast(Column, column.model).logbook
            logbook = check.refer("logbook", name, column, ("logbook",)) if name else None
            if not isinstance(logbook, Loaded):
                continue
            if logbook.path not in self._histories:
                refers = _Unreported(check.library)
                lab, today = check.lab, check.as_of
                self._histories[logbook.path], _ = history_of_logbook(
                    refers, logbook, lab, today, with_co2=False
                )
            found[column.name] = self._histories[logbook.path]
        return found


class _Resolved:
    """Follows the names in a logbook, once each, and predicts every run once."""

    def __init__(self, assembly: Refers, logbook: Loaded, *, with_co2: bool) -> None:
        self.assembly, self.logbook = assembly, logbook
        self.typed = cast(Logbook, logbook.model)
        self.columns: dict[str, Loaded] = {}
        self._found: dict[tuple[str, str], Loaded | None] = {}
        self._batches: dict[str, Batch | None] = {}
        self._plans: dict[Names, RunPlan] = {}
        sequences: dict[str, Loaded] = {}
        for number, entry in enumerate(self.typed.entries):
            if entry.sequence is not None and (with_co2 or entry.method is None):
                path: Path = ("entries", number, "sequence")
                loaded = self._find("sequence", entry.sequence, path)
                if loaded is not None:
                    sequences[entry.sequence] = loaded
            self._plan(self._names(entry, number), number)
        for loaded in sequences.values():
            self._plan_lines(loaded)
        keys = list(self._plans)
        found = predict([self._plans[key] for key in keys])
        self._predicted: dict[Names, Predicted | None] = dict(zip(keys, found, strict=True))
        for name, loaded in sequences.items():
            self._batches[name] = self._batch(loaded)

    def _find(self, kind: str, name: str | None, path: Path) -> Loaded | None:
        if name is None:
            return None
        if (kind, name) not in self._found:
            found = self.assembly.refer(kind, name, self.logbook, path)
            self._found[kind, name] = None if isinstance(found, Missing) else found
        return self._found[kind, name]

    def _sequence(self, entry: LogEntry) -> Sequence | None:
        loaded = self._found.get(("sequence", entry.sequence or ""))
        return cast(Sequence, loaded.model) if loaded is not None else None

    def _names(self, entry: LogEntry, number: int) -> Names:
        """Method, instrument and column by the entry, else by its sequence, else by the logbook."""
        sequence = self._sequence(entry)
        method = entry.method
        if method is None and sequence is not None:
            lines = (line.method for line in sequence.lines if line.method is not None)
            method = sequence.method or next(lines, None)
        method = method or self.typed.method
        of_sequence = sequence.instrument if sequence is not None else None
        return method, entry.instrument or of_sequence or self.typed.instrument, entry.column

    def _plan(self, names: Names, number: int) -> None:
        if names in self._plans or names[0] is None or names[1] is None:
            return
        at: Path = ("entries", number)
        written = self.typed.entries[number]
        method = self._find("method", names[0], (*at, "method") if written.method else ("method",))
        key = "instrument"
        bench = self._find(key, names[1], (*at, key) if written.instrument else (key,))
        if method is None or bench is None:
            return
        wanted = names[2] or cast(Method, method.model).column
        columns = []
        for name in wanted if isinstance(wanted, tuple) else (wanted,):
            loaded = self._find("column", name, (*at, "column") if names[2] else at)
            if loaded is None:
                return
            columns.append(loaded)
            self.columns[loaded.name] = loaded
        self._plans[names] = plan_run(method, columns, bench)

    def _plan_lines(self, loaded: Loaded) -> None:
        """Plan the further methods of a sequence, for the CO2 that it takes."""
        sequence = cast(Sequence, loaded.model)
        for name in {line.method or sequence.method for line in sequence.lines}:
            names: Names = (name, sequence.instrument, None)
            if name is None or sequence.instrument is None or names in self._plans:
                continue
            method = self.assembly.library.find("method", name, loaded)
            bench = self.assembly.library.find("instrument", sequence.instrument, loaded)
            if not isinstance(method, Loaded) or not isinstance(bench, Loaded):
                continue
            wanted = cast(Method, method.model).column
            cards = [
                self.assembly.library.find("column", one, method)
                for one in (wanted if isinstance(wanted, tuple) else (wanted,))
                if one is not None
            ]
            columns = [card for card in cards if isinstance(card, Loaded)]
            if columns and len(columns) == len(cards):
                self._plans[names] = plan_run(method, columns, bench)

    def _batch(self, loaded: Loaded) -> Batch | None:
        sequence = cast(Sequence, loaded.model)
        runs, methods = {}, {}
        for name in {line.method or sequence.method for line in sequence.lines}:
            predicted = self._predicted.get((name, sequence.instrument, None))
            if name is None or predicted is None:
                return None
            runs[name], methods[name] = predicted.run, predicted.run.plan.method
        bench = self.assembly.library.find("instrument", sequence.instrument or "", loaded)
        card = bench if isinstance(bench, Loaded) else None
        batch = rehearse_batch(loaded, methods, runs, card)
        return None if batch.missing or not batch.lines else batch

    def reading(self, number: int, entry: LogEntry, moment: datetime.datetime) -> LogReading:
        """One entry in SI, with what was predicted for it."""
        names = self._names(entry, number)
        predicted = self._predicted.get(names)
        batch = self._batches.get(entry.sequence or "")
        sequence = self._sequence(entry)
        of_sequence = sequence.supply if sequence is not None else None
        injections = entry.injections or (batch.injections if batch is not None else 0)
        plan = self._plans.get(names)
        column = plan.columns[-1].model if plan is not None else None
        card = plan.instrument.model if plan and plan.instrument else None
        return LogReading(
            entry=number,
            moment=moment,
            bench=names[1] or "",
            method=names[0] or "",
            sequence=entry.sequence or "",
            column=plan.columns[-1].name if plan is not None else entry.column or "",
            supply=entry.supply or of_sequence or self.typed.supply or "",
            injections=injections,
            start=_si(entry.start_pressure),
            highest=_si(entry.highest_pressure),
            outlet=_si(entry.outlet_pressure),
            oven=_si(entry.oven_temperature),
            as_set=_as_set(entry, predicted),
            highest_as_set=_highest_as_set(entry, predicted),
            peaks=_peaks(entry),
            weight_before=_si(entry.weight_before),
            weight_after=_si(entry.weight_after),
            changed=bool(entry.cylinder_changed),
            test=None if entry.column_test is None else entry.column_test == "passed",
            predicted=predicted,
            co2=_co2(entry, predicted, batch, card),
            highest_allowed=_rating(card),
            most_plates=_most_plates(column),
        )


def _si(value: object) -> float | None:
    return None if value is None else float(value.si)  # type: ignore[attr-defined]


def _as_set(entry: LogEntry, predicted: Predicted | None) -> bool:
    if entry.start_share is None or predicted is None:
        return True
    return abs(entry.start_share.si - predicted.share) < _SAME_SHARE


def _highest_as_set(entry: LogEntry, predicted: Predicted | None) -> bool:
    """Whether the composition beside the highest pressure is the one set or arriving then."""
    if entry.highest_share is None or predicted is None:
        return True
    found = predicted.run.highest(predicted.run.pump_pressure)
    shares = predicted.highest_share, float(predicted.run.programme.share_at(found.time))
    return any(abs(entry.highest_share.si - share) < _SAME_SHARE_ON_THE_WAY for share in shares)


def _peaks(entry: LogEntry) -> tuple[PeakRead, ...]:
    found = []
    if entry.retention_time is not None or entry.plates is not None or entry.tailing is not None:
        own = entry.peak or "peak"
        found.append(PeakRead(own, _si(entry.retention_time), entry.plates, entry.tailing))
    for peak in entry.peaks:
        found.append(PeakRead(peak.name, _si(peak.retention_time), peak.plates, peak.tailing))
    return tuple(found)


def _co2(
    entry: LogEntry, predicted: Predicted | None, batch: Batch | None, card: Instrument | None
) -> float | None:
    """CO2 of the entry: of its sequence, else of its injections, one if it names none."""
    if entry.sequence is not None:
        return batch.co2_demand if batch is not None else None
    if predicted is None or entry.injections is None:
        return None
    overhead = card.cycle_overhead.si if card is not None and card.cycle_overhead else 0.0
    each = predicted.co2_per_cycle + predicted.overhead_rate * overhead
    return each * entry.injections


def _rating(card: Instrument | None) -> float | None:
    pumps = (card.co2_pump, card.modifier_pump) if card is not None else ()
    ratings = [pump.pressure_rating.si for pump in pumps if pump and pump.pressure_rating]
    return min(ratings, default=None)


def _most_plates(column: Column | None) -> float | None:
    if column is None or column.length is None or column.particle_size is None:
        return None
    return column.length.si / column.particle_size.si
