"""From documents to cases: follows references, rehearses everything in one call."""

from __future__ import annotations

import copy
import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import cast

from methodlint.checking.logbook_readings import CardLogbooks
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.library import Library
from methodlint.documents.loading import Loaded
from methodlint.documents.not_found import NotFound
from methodlint.documents.quantities.format import counted
from methodlint.documents.quantities.number_findings import is_placeholder
from methodlint.documents.text.places import Path
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.visible import visible
from methodlint.judging.case import BatchCase, Case, DocumentCase, RunCase
from methodlint.judging.lab_policy import with_staffed_hours
from methodlint.judging.line_case import LineCase
from methodlint.rehearsal.batch.lines import rehearse_batch
from methodlint.rehearsal.contacts.at_needle import between_diluents, between_washes
from methodlint.rehearsal.contacts.contacts_between import (
    between_lines,
    within_bottles,
    within_waste,
)
from methodlint.rehearsal.contacts.in_a_run import contacts_of
from methodlint.rehearsal.history.calibration import logged_columns
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.run_plan import RunPlan, plan_run
from methodlint.rehearsal.plan.scouting_lines import scouted
from methodlint.rehearsal.run.precomputed import precompute
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse_many


@dataclass
class Assembly:
    """Cases of one check, and the documents that they are made of.

    Attributes
    ----------
    documents
        Every document that was used, by its path as shown.
    reference_problems
        References that lead nowhere, by the path of the document that makes them.
    """

    library: Library
    as_of: datetime.date | None = None
    not_before: datetime.date | None = None
    documents: dict[str, Loaded] = field(default_factory=dict)
    reference_problems: dict[str, list[Problem]] = field(default_factory=dict)
    runs: list[RunCase] = field(default_factory=list)
    batches: list[BatchCase] = field(default_factory=list)
    _logbooks: CardLogbooks = field(default_factory=CardLogbooks, repr=False)

    def use(self, document: Loaded) -> Loaded:
        """Remember a document as one that takes part."""
        return self.documents.setdefault(document.path, document)

    def refer(self, kind: str, name: str, document: Loaded, path: Path) -> Loaded | Missing:
        """Follow one reference, reporting it at its place if it leads nowhere."""
        found = self.library.find(kind, name, document)
        if isinstance(found, NotFound):
            problem = _unresolved(kind, name, document, path, found)
            known_problems = self.reference_problems.setdefault(document.path, [])
            # One that is left to be filled in is told as that.
            if problem not in known_problems and not is_placeholder(name):
                known_problems.append(problem)
            return Missing(kind, document, problem.message)
        return self.use(found)

    # Cases ---------------------------------------------------------------------------------

    def add_method(self, method: Loaded[Method]) -> None:
        """Add a case for each instrument that a method says it runs on."""
        typed: Method = method.model
        self.use(method)
        for index, name in enumerate(typed.runs_on):
            instrument = self.refer("instrument", name, method, ("runs_on", index))
            self.runs.append(self.run_case(method, instrument, {}))
        if not typed.runs_on:
            self.runs.append(self.run_case(method, None, {}))

    def run_case(
        self,
        method: Loaded[Method],
        instrument: Loaded[Instrument] | Missing | None,
        bench: dict[str, Loaded],
        unresolved: dict[str, Missing] | None = None,
        *,
        with_source: bool = True,
    ) -> RunCase:
        """Build the case of one method on one instrument, not yet rehearsed."""
        typed: Method = method.model
        documents: dict[str, Loaded] = {"method": method, **bench}
        lost = dict(unresolved or {})
        columns: list[Loaded[Column]] = []
        names = typed.column if isinstance(typed.column, tuple) else (typed.column,)
        for index, name in enumerate(names):
            if name is None:
                continue
            path: Path = ("column", index) if isinstance(typed.column, tuple) else ("column",)
            column = self.refer("column", name, method, path)
            if isinstance(column, Missing):
                lost["column"] = column
            else:
                columns.append(column)
        if columns and "column" not in lost:
            documents["column"] = columns[-1]
        if isinstance(instrument, Loaded):
            documents["instrument"] = instrument
        elif isinstance(instrument, Missing):
            lost["instrument"] = instrument
        source = self._source_of(method, lost) if with_source else None
        return RunCase(
            documents=documents,
            lab=self.lab,
            unresolved=lost,
            as_of=self._day(),
            columns=tuple(columns) if "column" not in lost else (),
            source=source,
            verifications=self._verifications(method) if with_source else (),
            histories=self._logbooks.of(self, columns),
        )

    def _source_of(self, method: Loaded[Method], lost: dict[str, Missing]) -> RunCase | None:
        """Build the run that a transferred method comes from; its own origin is not followed."""
        typed: Method = method.model
        if typed.transferred_from is None:
            return None
        origin = self.refer("method", typed.transferred_from, method, ("transferred_from",))
        if isinstance(origin, Missing):
            lost["source"] = origin
            return None
        noted = typed.transfer.source_instrument if typed.transfer else None
        name, beside, path = noted, method, cast(Path, ("transfer", "source_instrument"))
        if name is None:
            runs_on = origin.model.runs_on
            name, beside, path = next(iter(runs_on), None), origin, ("runs_on", 0)
        instrument = self.refer("instrument", name, beside, path) if name else None
        return self.run_case(origin, instrument, {}, with_source=False)

    def _verifications(self, method: Loaded[Method]) -> tuple[Loaded, ...]:
        """Sequences that a transferred method names as its verification."""
        typed: Method = method.model
        found = []
        for index, name in enumerate(typed.transfer.verification if typed.transfer else ()):
            path: Path = ("transfer", "verification", index)
            sequence = self.refer("sequence", name, method, path)
            if isinstance(sequence, Loaded):
                found.append(sequence)
        return tuple(found)

    def add_sequence(self, sequence: Loaded[SequenceModel]) -> None:
        """Add a sequence with its bench, and a run for each method that it uses."""
        self.use(sequence)
        matrix = scouted(sequence, self.refer)
        made: dict[str, Loaded] = {}
        if matrix is not None:
            self.reference_problems.setdefault(sequence.path, []).extend(
                problem
                for problem in (*matrix.problems, *matrix.sequence.problems)
                if problem not in sequence.problems
            )
            sequence, made = matrix.sequence, matrix.methods
        typed: SequenceModel = sequence.model
        bench: dict[str, Loaded] = {"sequence": sequence}
        lost: dict[str, Missing] = {}
        for kind in ("instrument", "supply", "solvents", "room"):
            name = getattr(typed, kind)
            if name is None:
                continue
            found = self.refer(kind, name, sequence, (kind,))
            if isinstance(found, Missing):
                lost[kind] = found
            else:
                bench[kind] = with_staffed_hours(found, self.lab) if kind == "room" else found
        instrument = bench.pop("instrument", None)
        runs: dict[str, RunCase] = {}
        methods: dict[str, Loaded[Method]] = {}
        for name, path in _method_names(typed):
            method = made.get(name) or self.refer("method", name, sequence, path)
            if isinstance(method, Missing):
                lost["method"] = method
                continue
            methods[name] = method
            if name not in made:
                self._look_for_own_benches(method, typed.instrument)
            where = instrument or lost.get("instrument")
            runs[name] = self.run_case(method, where, bench, lost)
        documents = dict(bench)
        if instrument is not None:
            documents["instrument"] = instrument
        as_of = self._day(typed.begins.date() if typed.begins else None)
        for run in runs.values():
            run.as_of = as_of
            run.neighbours = methods
        case = BatchCase(documents=documents, lab=self.lab, unresolved=lost, as_of=as_of, runs=runs)
        case.scouted = matrix
        self.batches.append(case)
        self.runs.extend(runs.values())

    def _look_for_own_benches(self, method: Loaded[Method], bench: str | None) -> None:
        """Report benches of a method that are not there, where it runs on none that it names."""
        names = method.model.runs_on
        if bench in names:
            return
        for index, name in enumerate(names):
            if isinstance(self.library.find("instrument", name, method), NotFound):
                self.refer("instrument", name, method, ("runs_on", index))

    def _day(self, *begins: datetime.date | None) -> datetime.date | None:
        """Day by which dates are judged: the one asked for, or the latest."""
        known = [day for day in (*begins, self.not_before) if day is not None]
        return self.as_of or max(known, default=None)

    @property
    def lab(self) -> Loaded | None:
        """The lab's document."""
        lab = self.library.lab
        return self.use(lab) if lab is not None else None

    def document_cases(self, begins: datetime.date | None = None) -> list[DocumentCase]:
        """One case for every document that takes part, reference problems included.

        `begins` is the latest date at which a sequence of another assembly begins.
        """
        cases = []
        lab = self.lab
        days = [begins, *(batch.last_day for batch in self.batches)]
        # A deviation that has ended when a sequence begins has ended, whenever that is looked at.
        as_of = max((day for day in (*days, self._day()) if day is not None), default=None)
        for path in sorted(self.documents):
            document = self.documents[path]
            extra = self.reference_problems.get(path, [])
            if extra:
                problems = sorted([*document.problems, *extra], key=lambda p: (p.place, p.rule))
                document = replace(document, problems=tuple(problems))
            cases.append(
                DocumentCase(
                    documents={document.kind: document} if document.kind else {},
                    lab=lab,
                    as_of=as_of,
                    document=document,
                )
            )
        return cases


def _unresolved(kind: str, name: str, document: Loaded, path: Path, found: NotFound) -> Problem:
    near = ", ".join(
        f"{other} ({counted(distance, 'letter')} apart)" for other, distance in found.near
    )
    return Problem(
        rule="document.reference-unresolved",
        grade="fault",
        path=path,
        place=document.place(path),
        message=f"{kind} '{visible(name)}': {found.reason}",
        remedy=f"did you mean {near}?" if near else found.remedy,
        meant=tuple(other for other, _ in found.near),
    )


def _method_names(sequence: SequenceModel) -> Iterable[tuple[str, Path]]:
    seen: dict[str, Path] = {}
    needs_default = any(line.method is None for line in sequence.lines) or not sequence.lines
    if sequence.method is not None and needs_default:
        seen[sequence.method] = ("method",)
    for index, line in enumerate(sequence.lines):
        if line.method is not None:
            seen.setdefault(line.method, ("lines", index, "method"))
    return seen.items()


def rehearse_cases(cases: Sequence[Case]) -> None:
    """Rehearse runs in one stacked call, then the batches that are made of them."""
    batches = [case for case in cases if isinstance(case, BatchCase)]
    runs = [case for case in cases if isinstance(case, RunCase)]
    runs += [run for batch in batches for run in batch.runs.values()]
    runs += [run.source for run in runs if run.source is not None]
    waiting: list[RunCase] = []
    seen: set[int] = set()
    for run in runs:
        if id(run) in seen:
            continue
        seen.add(id(run))
        # A run that keeps its rehearsal may still stand at another bench than before.
        run.contacts = () if isinstance(run, LineCase) else contacts_of(run.documents)
        if run.rehearsal is None:
            run.rehearsal = _still_true(run)
        run.earlier = None
        if run.rehearsal is None:
            waiting.append(run)
    plans = [_planned(run) for run in waiting]
    for run, rehearsal in zip(waiting, rehearse_many(plans), strict=True):
        run.rehearsal = rehearsal
    precompute([run.rehearsal for run in waiting if run.rehearsal is not None])
    for batch in batches:
        batch.batch = rehearse_batch(
            batch.documents["sequence"],
            {name: run.documents["method"] for name, run in batch.runs.items()},
            {name: run.run for name, run in batch.runs.items()},
            batch.documents.get("instrument"),
        )
        methods = {name: run.documents["method"] for name, run in batch.runs.items()}
        batch.contacts = tuple(
            dict.fromkeys(
                (
                    *(contact for run in batch.runs.values() for contact in run.contacts),
                    *between_lines(batch.documents, methods),
                    *between_washes(batch.documents),
                    *between_diluents(batch.documents, methods),
                    *within_bottles(batch.documents),
                    *within_waste(batch.documents, methods),
                )
            )
        )


def _planned(run: RunCase) -> RunPlan:
    method, bench = run.documents["method"], run.documents.get("instrument")
    logged = logged_columns(run.histories, bench.name if bench else "", method.name, run.as_of)
    plan = plan_run(method, run.columns, bench, logged)
    return run.plan(plan) if isinstance(run, LineCase) else plan


_NOT_REHEARSED = frozenset(
    {"analytes", "approval", "bracketing", "calibration", "comment", "deviations", "detectors",
     "edition", "expected_peaks", "lowest_level", "pressure_limits", "purpose", "sample_hazard",
     "status", "suitability", "title"}
)  # fmt: skip
"""Keys of a method that change nothing about pressures, compositions and flows."""


def _still_true(run: RunCase) -> Rehearsal | None:
    """What was computed for the run before a trial change, if the change does not touch it."""
    earlier = None if isinstance(run, LineCase) else run.earlier
    if earlier is None or earlier.rehearsal is None or not earlier.rehearsal.done:
        return None
    if run.columns != earlier.columns or (
        run.documents.get("instrument") is not earlier.documents.get("instrument")
    ):
        return None
    old, new = dict(earlier.documents["method"].model), dict(run.documents["method"].model)
    if any(old[key] != new[key] for key in old if key not in _NOT_REHEARSED):
        return None
    # A copy keeps what was computed of the arrays, too: none of it looks at these keys.
    kept = copy.copy(earlier.rehearsal)
    vars(kept)["plan"] = _planned(run)
    return kept


def rebuild(case: Case, changed: dict[str, Loaded]) -> Case:
    """Make a case anew with some documents exchanged; runs that change lose their rehearsal."""

    def exchange(document: Loaded) -> Loaded:
        return changed.get(document.path, document)

    documents = {kind: exchange(document) for kind, document in case.documents.items()}
    if isinstance(case, RunCase):
        columns = tuple(exchange(column) for column in case.columns)
        neighbours = {name: exchange(document) for name, document in case.neighbours.items()}
        source = case.source
        if source is not None and any(d.path in changed for d in source.documents.values()):
            source = cast(RunCase, rebuild(source, changed))
        return replace(
            case,
            documents=documents,
            columns=columns,
            neighbours=neighbours,
            rehearsal=None,
            source=source,
            earlier=case,
        )
    if isinstance(case, BatchCase):
        runs = {}
        for name, run in case.runs.items():
            touched = {"method", "instrument", "column"} & {
                kind for kind, document in run.documents.items() if document.path in changed
            }
            new = rebuild(run, changed)
            assert isinstance(new, RunCase)
            if not touched:
                new.rehearsal = run.rehearsal
            runs[name] = new
        return replace(case, documents=documents, runs=runs)
    if isinstance(case, DocumentCase):
        return replace(case, documents=documents, document=exchange(case.document))
    return replace(case, documents=documents)
