"""The check: files in, report out."""

from __future__ import annotations

import datetime
import os
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from methodlint.checking.assemble import Assembly, rebuild, rehearse_cases
from methodlint.checking.given import Given, refuse_unused, with_given
from methodlint.checking.line_cases import keep_the_worse, line_cases
from methodlint.checking.purposes import Waiting, joined, waiting_for_purpose
from methodlint.checking.remedies import add_remedies, leave_out_remedies
from methodlint.checking.report import Report, finding_order, not_checked_order
from methodlint.checking.targets import NOTHING, NothingToCheck, targets_of
from methodlint.checking.throttled_gc import gc_throttled
from methodlint.checking.week import add_calendar, bookings_of, joined_calendars
from methodlint.documents.arguments import require_date, require_flag, require_list, require_path
from methodlint.documents.library import LabFolder, Library
from methodlint.documents.loading import Loaded
from methodlint.judging.case import Case, DocumentCase, RunCase
from methodlint.judging.deviations import (
    DeviationUse,
    deviation_uses,
    idle_deviations,
    set_deviations_aside,
)
from methodlint.judging.engine import judge_case
from methodlint.judging.judged import Judged
from methodlint.judging.lab_rules import RuleFolder, refuse_not_named, rule_folders
from methodlint.judging.line_case import LineCase
from methodlint.judging.loader import Rule, built_in_rules
from methodlint.judging.unjudged import unusable_documents


@gc_throttled()
def check(
    *paths: str | FilePath,
    as_of: datetime.date | None = None,
    given: Sequence[Given] = (),
    rules: Sequence[Rule] | None = None,
    changed: bool = False,
    allow_rules: Sequence[str | FilePath] = (),
    shown_from: FilePath | None = None,
    not_before: datetime.date | None = None,
    texts: Mapping[FilePath, bytes] | None = None,
    remedies: bool = True,
) -> Report:
    """Check documents or folders of documents.

    Parameters
    ----------
    paths
        Files or folders; what they refer to is found by name under the lab's root.
    as_of
        Date that dates are judged against; without one, the sequence's start is taken. A
        `datetime.date`; text is read by `datetime.date.fromisoformat`.
    given
        Figures for this run, as on the command line.
    rules
        Rules to apply; all that come with the package by default.
    changed
        The paths are a list of what has changed: methods and sequences that depend on them are
        judged too, documents that were removed may be among them, and files that are no
        documents are passed over.
    allow_rules
        Folders of a lab's own rules that may be run, if the lab's document names them too.
    shown_from
        Folder that paths are shown relative to, and above which no lab's document is looked for;
        the working folder and any above it if None.
    not_before
        Day that dates are judged against at the earliest, without `as_of`: documents that no
        sequence dates, and sequences that have begun, are judged by it.
    texts
        Texts that stand for files, by their real paths: what is asked about and not written.
    remedies
        Whether remedies are looked for; without them findings say what is wrong alone.

    Returns
    -------
    Report
        Without documents if `changed` and nothing concerns this tool.

    Raises
    ------
    FileNotFoundError
        If a path does not exist, unless `changed`.
    NothingToCheck
        If there is no document of this tool among the files, unless `changed`.
    RulesNotNamed
        If a folder is allowed that no lab's document names.
    GivenWrong
        If a figure does not validate, or is for a kind of document that takes no part.
    TypeError
        If an argument has another type, such as a date as text.
    """
    for path in paths:
        require_path("paths", path)
        if path == "":
            raise FileNotFoundError("a path is empty: name a document or a folder")
    require_options(as_of, given, changed, allow_rules)
    require_date("not_before", not_before)
    require_flag("remedies", remedies)
    if shown_from is not None:
        require_path("shown_from", shown_from)
    require_list("rules", rules or (), Rule, "rules")
    rules = built_in_rules() if rules is None else rules
    targets = targets_of(paths, changed=changed, within=shown_from, texts=texts)
    if not changed and not any(documents for _, documents in targets):
        raise NothingToCheck(NOTHING)
    allowed = [FilePath(folder) for folder in allow_rules]
    labs = [(folder.lab, folder.root) for folder, _ in targets]
    refuse_not_named(allowed, labs, changed=changed)
    may = {folder.resolve() for folder in allowed}
    ids = {rule.id for rule in rules} | {rule.id for rule in built_in_rules()}
    judgements = [
        judge_documents(
            folder,
            documents,
            rules,
            as_of,
            given,
            rule_folders(folder.lab, folder.root, may, ids),
            not_before,
            remedies,
        )
        for folder, documents in targets
        if documents
    ]
    report = merged(judgements) if judgements else Report(documents={})
    if not report.unusable:
        refuse_unused(given, report.documents.values())
    return report


def require_options(as_of: Any, given: Any, changed: Any, allow_rules: Any) -> None:
    """Raise `TypeError` for an option of a check that has another type."""
    require_date("as_of", as_of)
    require_list("given", given, Given, "Given; Given.read takes 'supply.net_mass=12.5 kg'")
    require_flag("changed", changed)
    require_list("allow_rules", allow_rules, (str, os.PathLike), "paths")


def judge_documents(
    library: Library,
    targets: Sequence[Loaded],
    rules: Sequence[Rule],
    as_of: datetime.date | None = None,
    given: Sequence[Given] = (),
    of_lab: Sequence[RuleFolder] = (),
    not_before: datetime.date | None = None,
    remedies: bool = True,
) -> Report:
    """Judge documents that are already loaded; see `check`.

    Parameters
    ----------
    of_lab
        The rule folders that the lab's document names, with the rules loaded from them.
    """
    judgement = judge_cases(
        library, targets, rules, as_of, given, of_lab, not_before=not_before, remedies=remedies
    )
    rejudge_documents(judgement)
    report = _report(judgement.assembly, judgement.judged, judgement.rules)
    report.rules_of_lab = tuple(rule for rule_folder in of_lab for rule in rule_folder.rules)
    if isinstance(library, LabFolder):
        report.lab_paths = lab_paths(library, report.documents, judgement.runs)
    report.runs = judgement.runs
    report.batches = judgement.assembly.batches
    report.as_of = as_of
    report.given = tuple((item.path, item.text) for item in given)
    return report


@dataclass
class CheckJudgement:
    """Cases of some documents with what the rules say of each.

    Attributes
    ----------
    library
        Where references were looked up, with the figures given for this run.
    judged
        One result for each case.
    uses
        What became of the deviations of the documents of each case.
    waiting
        What waits in each case for a purpose to be said.
    remedies
        Whether remedies were looked for.
    """

    library: Library
    rules: Sequence[Rule]
    assembly: Assembly
    runs: list[RunCase]
    judged: list[Judged]
    uses: list[dict[str, DeviationUse]]
    waiting: list[Waiting]
    remedies: bool = True


def judge_cases(
    library: Library,
    targets: Sequence[Loaded],
    rules: Sequence[Rule],
    as_of: datetime.date | None = None,
    given: Sequence[Given] = (),
    of_lab: Sequence[RuleFolder] = (),
    begins: datetime.date | None = None,
    not_before: datetime.date | None = None,
    remedies: bool = True,
) -> CheckJudgement:
    """Judge every case of some documents, each by itself.

    Parameters
    ----------
    begins
        Date by which documents are judged without `as_of`, if other sequences than those among
        `targets` begin later.
    not_before, remedies
        See `check`.
    """
    rules = [*rules, *(rule for rule_folder in of_lab for rule in rule_folder.rules)]
    if given:
        bench = with_given(library, given)
        library, targets = bench, [bench.changed(target) for target in targets]
    assembly = Assembly(library, as_of, not_before)
    for target in targets:
        if target.kind == "sequence":
            assembly.add_sequence(target)
        else:
            assembly.use(target)
    covered = {run_key(run.documents) for run in assembly.runs}
    for target in targets:
        if target.kind == "method":
            assembly.add_method(target)
    # A method that a sequence runs on the same instrument has been judged with its bench.
    with_bench = [run for run in assembly.runs if "sequence" in run.documents]
    alone = [
        run
        for run in assembly.runs
        if "sequence" not in run.documents and run_key(run.documents) not in covered
    ]
    first_of: dict[tuple[str, str], RunCase] = {}
    for run in [*with_bench, *alone]:
        first_of.setdefault(run_key(run.documents), run)
    runs = list(first_of.values())
    rehearse_cases([*assembly.batches, *runs, *with_bench])
    documents = document_cases(assembly, rules, of_lab, begins)
    # Every sequence has bottles, a supply and a room of its own: a run is judged with each of them.
    alone = [run for run in runs if "sequence" not in run.documents]
    lines = [line for batch in assembly.batches for line in line_cases(batch)]
    rehearse_cases(lines)
    cases: list[Case] = [*documents, *with_bench, *lines, *alone, *assembly.batches]
    judged = [judge_case(case, rules) for case in cases]
    _look_for_remedies(judged, rules, remedies)
    keep_the_worse(judged)
    for result in judged:
        set_deviations_aside(result)
    uses = [deviation_uses(result) for result in judged]
    waiting = waiting_for_purpose(judged, rules)
    return CheckJudgement(library, rules, assembly, runs, judged, uses, waiting, remedies)


def _look_for_remedies(judged: Sequence[Judged], rules: Sequence[Rule], wanted: bool) -> None:
    if wanted:
        add_remedies(judged, rules, rebuild, rehearse_cases)
    else:
        leave_out_remedies(judged)


def document_cases(
    assembly: Assembly,
    rules: Sequence[Rule],
    of_lab: Sequence[RuleFolder],
    begins: datetime.date | None,
) -> list[DocumentCase]:
    """One case for every document of an assembly."""
    cases = assembly.document_cases(begins)
    grades = {rule.id: rule.grades for rule in (*built_in_rules(), *rules)}
    for case in cases:
        case.rule_grades = grades
        case.rule_folders = tuple(of_lab)
    return cases


def rejudge_documents(judgement: CheckJudgement) -> None:
    """Judge documents once more about which the other cases have told something."""
    idle = idle_deviations(judgement.uses)
    paths = (judged_document(result.case).path for result in judgement.judged)
    waiting = joined(zip(paths, judgement.waiting, strict=True))
    for index, result in enumerate(judgement.judged):
        case = result.case
        if not isinstance(case, DocumentCase):
            continue
        case.idle = idle.get(case.document.path, case.idle)
        case.waiting = waiting.get(case.document.path, case.waiting)
        if case.idle or case.waiting:
            judgement.judged[index] = judge_document(case, judgement.rules, judgement.remedies)


def judge_document(case: DocumentCase, rules: Sequence[Rule], remedies: bool = True) -> Judged:
    """Judge one document by itself."""
    result = judge_case(case, rules)
    _look_for_remedies([result], rules, remedies)
    set_deviations_aside(result)
    return result


def lab_paths(
    folder: LabFolder, documents: Mapping[str, Loaded], runs: Iterable[RunCase]
) -> dict[str, str]:
    """Path under the lab's root of documents, of their tables, and of methods made for runs."""
    tables = (table.path for document in documents.values() for table in document.tables)
    methods = (run.documents["method"].path for run in runs)
    return {path: folder.under_root(path) for path in (*documents, *tables, *methods)}


def run_key(documents: dict[str, Loaded]) -> tuple[str, str]:
    """Paths of the method and the instrument of a run."""
    instrument = documents.get("instrument")
    return documents["method"].path, instrument.path if instrument else ""


def case_key(case: RunCase) -> tuple[str, ...]:
    """Paths of the method, of the instrument and of the sequence that runs it."""
    sequence = case.documents.get("sequence")
    return (*run_key(case.documents), *((sequence.path,) if sequence is not None else ()))


def judged_document(case: Case) -> Loaded:
    """Name the document that a case is about."""
    if isinstance(case, DocumentCase):
        return case.document
    of_run = isinstance(case, RunCase) and not isinstance(case, LineCase)
    return case.documents["method" if of_run else "sequence"]


def _report(assembly: Assembly, judged: Iterable[Judged], rules: Sequence[Rule]) -> Report:
    report = Report(documents=dict(sorted(assembly.documents.items())))
    for result in judged:
        report.add(judged_document(result.case).path, result.findings)
        report.add_not_checked(result.not_checked)
        report.set_aside.extend(result.set_aside)
        report.failed.extend(result.failed)
        report.checked += result.checked
        report.made.setdefault(judged_document(result.case).path, set()).update(result.made)
    _add_calendar(report, assembly, rules)
    report.put_in_order()
    report.unusable = unusable_documents(report.documents.values(), assembly.reference_problems)
    return report


def _add_calendar(report: Report, assembly: Assembly, rules: Sequence[Rule]) -> None:
    """Judge the sequences of an assembly among each other."""
    if len(assembly.batches) < 2:
        return
    cases = {case.name: case for case in assembly.batches}
    first_day = assembly.as_of or assembly.not_before
    bookings = bookings_of(assembly.batches)
    add_calendar(
        report, bookings, lambda one, _: cases[one.path].documents, assembly.lab, rules, first_day
    )


def merged(reports: Sequence[Report]) -> Report:
    """Join the reports of several lab folders."""
    if len(reports) == 1:
        return reports[0]
    whole = Report(documents={})
    for report in reports:
        whole.documents.update(report.documents)
        whole.findings += report.findings
        whole.raised.update(report.raised)
        whole.said_of.update(report.said_of)
        whole.not_checked += report.not_checked
        whole.set_aside += report.set_aside
        whole.failed += report.failed
        whole.runs += report.runs
        whole.batches += report.batches
        whole.plain_runs += report.plain_runs
        whole.plain_batches += report.plain_batches
        whole.checked += report.checked
        whole.unusable += report.unusable
        if report.calendar is not None:
            whole.calendar = joined_calendars(whole.calendar, report.calendar)
        whole.lab_paths.update(report.lab_paths)
        whole.rules_of_lab += report.rules_of_lab
        for path, made in report.made.items():
            whole.made.setdefault(path, set()).update(made)
        whole.given = report.given
        whole.as_of = report.as_of
    whole.findings.sort(key=finding_order)
    whole.not_checked.sort(key=not_checked_order)
    return whole
