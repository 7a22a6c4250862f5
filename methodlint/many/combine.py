"""Joins the results of batches to one report: the same as if all had been judged together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path as FilePath

from methodlint.checking.assemble import Assembly
from methodlint.checking.check import (
    document_cases,
    judge_document,
)
from methodlint.checking.given import with_given
from methodlint.checking.purposes import joined
from methodlint.checking.report import PlainBatch, PlainRun, Report
from methodlint.checking.week import add_calendar
from methodlint.documents.library import Library
from methodlint.documents.loading import Loaded
from methodlint.documents.text.problems import Problem
from methodlint.judging.deviations import idle_deviations
from methodlint.judging.loader import built_in_rules
from methodlint.judging.unjudged import unusable_documents
from methodlint.many.part import (
    CaseResult,
    ExternalFacts,
    Settings,
    WorkerPart,
    folder_of,
    plain_result,
    rules_of_lab,
)
from methodlint.many.plain import Pruner, Shelf
from methodlint.rehearsal.calendar.booking import Booking


def combined(settings: Settings, parts: Sequence[WorkerPart]) -> Report:
    """Join the parts of one lab folder, in the order of its files."""
    documents = _documents(parts)
    same = {id(own): documents[path] for part in parts for path, own in part.documents.items()}
    shelf = Shelf(lambda document: same.get(id(document), document))
    problems = _reference_problems(parts)
    results = _cases(parts)
    idle = idle_deviations(result.uses for result in results)
    waiting = joined((result.judged, result.waiting) for result in results)
    for number, result in enumerate(results):
        if result.kind != "document":
            continue
        path = result.judged
        told = ExternalFacts(
            frozenset(problems.get(path, ())),
            idle.get(path, frozenset()),
            waiting.get(path, {}),
        )
        # A batch knows what its own cases tell; only what others add is news.
        if told != result.told and path not in _lost(parts):
            results[number], documents[path] = _again(
                result, settings, problems.get(path, []), told
            )
            same[id(documents[path])] = documents[path]
    report = Report(documents=dict(sorted(documents.items())))
    for result in results:
        report.add(result.judged, [shelf.finding(finding) for finding in result.findings])
        report.add_not_checked(shelf.not_checked(item) for item in result.not_checked)
        report.set_aside += [shelf.set_aside(item) for item in result.set_aside]
        report.failed += result.failed
        report.checked += result.checked
        report.made.setdefault(result.judged, set()).update(result.made)
    _add_calendar(report, settings, _bookings(parts))
    report.put_in_order()
    report.unusable = unusable_documents(report.documents.values(), problems)
    for part in parts:
        report.lab_paths.update(part.lab_paths)
    own = rules_of_lab(settings)
    report.rules_of_lab = tuple(rule for one in own for rule in one.rules)
    report.plain_runs = _runs(parts)
    report.plain_batches = _batches(parts)
    report.as_of = settings.as_of
    report.given = tuple((item.path, item.text) for item in settings.given)
    return report


def _add_calendar(report: Report, settings: Settings, bookings: Sequence[Booking]) -> None:
    """Judge the sequences of all parts among each other; what they use is read once more."""
    folder = folder_of(settings)
    library = with_given(folder, settings.given) if settings.given else None
    whole = Pruner({})

    def documents_of(booking: Booking, all_of_it: bool) -> dict[str, Loaded]:
        found = {"sequence": report.documents[booking.path]}
        own = (("sequence", booking.path),) if all_of_it else ()
        for kind, path in (*own, *booking.cards.items()):
            document = folder.open(FilePath(settings.shown_from) / path)
            if document is not None:
                found[kind] = library.changed(document) if library is not None else document
                # A finding may point to nodes that no part kept.
                report.documents[path] = whole(found[kind])
        return found

    rules = [*built_in_rules(), *(rule for one in rules_of_lab(settings) for rule in one.rules)]
    first_day = settings.as_of or settings.not_before
    add_calendar(report, bookings, documents_of, folder.lab, rules, first_day)


def _bookings(parts: Iterable[WorkerPart]) -> list[Booking]:
    first: dict[str, Booking] = {}
    for part in parts:
        for booking in part.bookings:
            first.setdefault(booking.path, booking)
    return list(first.values())


def _documents(parts: Iterable[WorkerPart]) -> dict[str, Loaded]:
    """One document for each path, the one with all its nodes if there is one."""
    documents: dict[str, Loaded] = {}
    whole: set[str] = set()
    for part in parts:
        for path, document in part.documents.items():
            if path not in documents or (path in part.whole and path not in whole):
                documents[path] = document
        whole |= part.whole
    return documents


def _reference_problems(parts: Iterable[WorkerPart]) -> dict[str, list[Problem]]:
    problems: dict[str, list[Problem]] = {}
    for part in parts:
        for path, found in part.reference_problems.items():
            known = problems.setdefault(path, [])
            known += [problem for problem in found if problem not in known]
    return problems


def _cases(parts: Iterable[WorkerPart]) -> list[CaseResult]:
    """Every case once: documents by path, then runs, those of a sequence first, then batches."""
    documents: dict[tuple[str, ...], CaseResult] = {}
    with_bench: dict[tuple[str, ...], CaseResult] = {}
    alone: dict[tuple[str, ...], CaseResult] = {}
    lines: dict[tuple[str, ...], CaseResult] = {}
    batches: dict[tuple[str, ...], CaseResult] = {}
    for part in parts:
        for result in part.results:
            kinds = {"document": documents, "line": lines, "batch": batches}
            kinds["run"] = with_bench if result.with_bench else alone
            kinds[result.kind].setdefault(result.key, result)
    covered = {key[:2] for key in with_bench}
    runs = [*with_bench.values(), *(one for key, one in alone.items() if key not in covered)]
    steps = (*lines.values(), *batches.values())
    return [*(documents[key] for key in sorted(documents)), *runs, *steps]


def _runs(parts: Iterable[WorkerPart]) -> list[PlainRun]:
    everything = [run for part in parts for run in part.runs]
    first: dict[tuple[str, str], PlainRun] = {}
    for run in sorted(everything, key=lambda run: not run.with_bench):
        first.setdefault(run.key, run)
    return list(first.values())


def _batches(parts: Iterable[WorkerPart]) -> list[PlainBatch]:
    first: dict[str, PlainBatch] = {}
    for part in parts:
        for batch in part.batches:
            first.setdefault(batch.path, batch)
    return list(first.values())


def _lost(parts: Iterable[WorkerPart]) -> frozenset[str]:
    """Documents whose worker ended."""
    return frozenset(path for part in parts for path in part.lost)


def _again(
    result: CaseResult, settings: Settings, problems: list[Problem], told: ExternalFacts
) -> tuple[CaseResult, Loaded]:
    """Judge a document once more, with all that is told about it."""
    folder, file = folder_of(settings), FilePath(settings.shown_from) / result.judged
    document = folder.open(file) or folder.unreadable(file, asked_for=True)
    assert document is not None
    library: Library = folder
    if settings.given:
        library = with_given(folder, settings.given)
        document = library.changed(document)
    assembly = Assembly(library, settings.as_of, settings.not_before)
    assembly.use(document)
    assembly.reference_problems[document.path] = problems
    of_lab = rules_of_lab(settings)
    rules = [*built_in_rules(), *(rule for one in of_lab for rule in one.rules)]
    cases = document_cases(assembly, rules, of_lab, settings.begins)
    (case,) = (case for case in cases if case.document.path == result.judged)
    case.idle, case.waiting = told.idle, told.waiting
    judged = judge_document(case, rules, settings.remedies)
    # Its findings may point to nodes that the batch did not keep: it stays whole.
    whole = Pruner({})
    plain = plain_result(
        judged, Shelf(whole), result.uses, result.waiting, {document.path: problems}
    )
    return plain, whole(document)
