"""The review of a logbook: its entries in, what was predicted and what has changed out."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import cast

from methodlint.checking.assemble import Assembly
from methodlint.checking.report import Report
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.kinds.logbook import Logbook, LogEntry
from methodlint.documents.kinds.sequence import Sequence
from methodlint.documents.library import LabFolder, Library, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.judging.deviations import set_deviations_aside
from methodlint.judging.engine import judge_case
from methodlint.judging.history_case import HistoryCase
from methodlint.judging.loader import Rule, built_in_rules
from methodlint.judging.unjudged import unusable_documents
from methodlint.rehearsal.batch.lines import Batch, rehearse_batch
from methodlint.rehearsal.history.history import History, history_of
from methodlint.rehearsal.history.predicted import Predicted, predict
from methodlint.rehearsal.history.readings import LogReading, PeakRead
from methodlint.rehearsal.history.thresholds import Thresholds
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.run_plan import RunPlan, plan_run

__all__ = ["NoLogbook", "Review", "review", "review_loaded", "thresholds_of"]

_SAME_SHARE = 0.005
"""By how much a modifier share may differ and still be the method's own [-]."""


class NoLogbook(ValueError):
    """The file is no logbook."""


@dataclass
class Review:
    """A reviewed logbook.

    Attributes
    ----------
    logbook
        The document.
    history
        What its readings tell.
    report
        Findings, and the documents that took part.
    columns
        Column cards by the names that entries use.
    """

    logbook: Loaded
    history: History
    report: Report
    columns: dict[str, Loaded[Column]] = field(default_factory=dict)


def review(
    path: str | FilePath,
    *,
    as_of: datetime.date | None = None,
    shown_from: FilePath | None = None,
) -> Review:
    """Review the logbook in a file.

    Parameters
    ----------
    path
        File of the logbook; what it refers to is found by name under the lab's root.
    as_of
        Day of the review; readings of a later day cannot be true, and a test of a column may be
        overdue by it. Without one, the day of the latest entry.
    shown_from
        Folder that paths are shown relative to; the working folder if None.

    Raises
    ------
    FileNotFoundError
        If there is no such file.
    NoLogbook
        If it is no logbook.
    """
    file = FilePath(path).absolute()
    if not file.is_file():
        raise FileNotFoundError(f"there is no file {path}")
    folder = LabFolder(lab_root(file, shown_from), shown_from or FilePath.cwd())
    document = folder.open(file)
    if document is None or document.kind != "logbook":
        said = f"it says kind: {document.kind}" if document is not None else "it has no kind"
        raise NoLogbook(f"{path} is no logbook: {said}; a logbook says kind: logbook")
    return review_loaded(folder, document, as_of)


def review_loaded(
    library: Library,
    logbook: Loaded,
    as_of: datetime.date | None = None,
    rules: tuple[Rule, ...] | None = None,
) -> Review:
    """Review a logbook that is loaded already; see `review`."""
    rules = built_in_rules() if rules is None else rules
    assembly = Assembly(library, as_of)
    assembly.use(logbook)
    resolved = _Resolved(assembly, logbook)
    typed = cast(Logbook, logbook.model)
    undated = [n for n, entry in enumerate(typed.entries) if entry.date is None]
    readings = [
        resolved.reading(number, entry, entry.date.replace(tzinfo=None))
        for number, entry in enumerate(typed.entries)
        if entry.date is not None
    ]
    lab = assembly.lab
    history = history_of(readings, undated, thresholds_of(lab), as_of)
    documents = {"logbook": logbook}
    case = HistoryCase(
        documents=documents, lab=lab, as_of=as_of, history=history, columns=resolved.columns
    )
    report = Report(documents=dict(sorted(assembly.documents.items())), as_of=as_of)
    of_logbook = [one for one in assembly.document_cases() if one.document.path == logbook.path]
    for one in (*of_logbook, case):
        result = judge_case(one, rules)
        set_deviations_aside(result)
        report.add(logbook.path, result.findings)
        report.not_checked.extend(result.not_checked)
        report.set_aside.extend(result.set_aside)
        report.failed.extend(result.failed)
        report.checked += result.checked
        report.made.setdefault(logbook.path, set()).update(result.made)
    report.put_in_order()
    report.unusable = unusable_documents([logbook], assembly.reference_problems)
    if isinstance(library, LabFolder):
        report.lab_paths = {path: library.under_root(path) for path in report.documents}
    return Review(logbook, history, report, resolved.columns)


def thresholds_of(lab: Loaded[Lab] | None) -> Thresholds:
    """Thresholds of a lab's policy; the usual ones where it sets none."""
    policy = lab.model.policy if lab is not None else None
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


class _Resolved:
    """Follows the names in a logbook, once each, and predicts every run once."""

    def __init__(self, assembly: Assembly, logbook: Loaded) -> None:
        self.assembly, self.logbook = assembly, logbook
        self.typed = cast(Logbook, logbook.model)
        self.columns: dict[str, Loaded[Column]] = {}
        self._found: dict[tuple[str, str], Loaded | None] = {}
        self._batches: dict[str, Batch | None] = {}
        self._plans: dict[Names, RunPlan] = {}
        sequences: dict[str, Loaded] = {}
        for number, entry in enumerate(self.typed.entries):
            if entry.sequence is not None:
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
        return loaded.model if loaded is not None else None

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
        wanted = names[2] or method.model.column
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
        sequence: Sequence = loaded.model
        for name in {line.method or sequence.method for line in sequence.lines}:
            names: Names = (name, sequence.instrument, None)
            if name is None or sequence.instrument is None or names in self._plans:
                continue
            method = self.assembly.library.find("method", name, loaded)
            bench = self.assembly.library.find("instrument", sequence.instrument, loaded)
            if not isinstance(method, Loaded) or not isinstance(bench, Loaded):
                continue
            wanted = method.model.column
            cards = [
                self.assembly.library.find("column", one, method)
                for one in (wanted if isinstance(wanted, tuple) else (wanted,))
                if one is not None
            ]
            columns = [card for card in cards if isinstance(card, Loaded)]
            if columns and len(columns) == len(cards):
                self._plans[names] = plan_run(method, columns, bench)

    def _batch(self, loaded: Loaded) -> Batch | None:
        sequence: Sequence = loaded.model
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
