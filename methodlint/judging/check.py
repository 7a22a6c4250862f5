"""The check: files in, report out."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence
from pathlib import Path as FilePath

from methodlint.documents.library import LabFolder, Library, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.tables.files import SUFFIXES as TABLE_SUFFIXES
from methodlint.judging.assemble import Assembly, rebuild, rehearse_cases
from methodlint.judging.case import Case, DocumentCase, RunCase
from methodlint.judging.dependents import SUFFIXES, dependents, yaml_files
from methodlint.judging.deviations import idle_deviations, set_deviations_aside
from methodlint.judging.engine import Judged, judge_case
from methodlint.judging.finding import Finding, NotChecked
from methodlint.judging.given import Given, with_given
from methodlint.judging.lab_rules import RuleFolder, refuse_not_named, rule_folders
from methodlint.judging.loader import Rule, built_in_rules
from methodlint.judging.purposes import waiting_for_purpose
from methodlint.judging.remedies import add_remedies
from methodlint.judging.report import Report


class NothingToCheck(ValueError):
    """The paths name no document of this tool."""


def check(
    *paths: str | FilePath,
    as_of: datetime.date | None = None,
    given: Sequence[Given] = (),
    rules: Sequence[Rule] | None = None,
    changed: bool = False,
    allow_rules: Sequence[str | FilePath] = (),
) -> Report:
    """Check documents or folders of documents.

    Parameters
    ----------
    paths
        Files or folders; what they refer to is found by name under the lab's root.
    as_of
        Date that dates are judged against; without one, the sequence's start is taken.
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
    """
    rules = built_in_rules() if rules is None else rules
    folders: dict[FilePath, LabFolder] = {}
    targets: list[tuple[LabFolder, Loaded]] = []
    here = FilePath.cwd()
    removed: dict[FilePath, list[FilePath]] = {}
    tables: dict[FilePath, list[FilePath]] = {}
    for path in paths:
        if changed and not FilePath(path).exists():
            gone = FilePath(path).absolute()
            if gone.suffix in TABLE_SUFFIXES:
                root = lab_root(gone)
                folders.setdefault(root, LabFolder(root, here))
                tables.setdefault(root, []).append(gone)
            elif gone.suffix in SUFFIXES:
                root = lab_root(gone)
                folders.setdefault(root, LabFolder(root, here))
                removed.setdefault(root, []).append(gone)
            continue
        for file, asked_for in _files(FilePath(path)):
            if changed and file.suffix not in SUFFIXES:
                if file.suffix in TABLE_SUFFIXES:
                    root = lab_root(file)
                    folders.setdefault(root, LabFolder(root, here))
                    tables.setdefault(root, []).append(file)
                continue
            root = lab_root(file)
            folder = folders.setdefault(root, LabFolder(root, here))
            document = folder.open(file)
            if document is None:
                document = folder.unreadable(file, asked_for=asked_for and not changed)
            if document is not None:
                targets.append((folder, document))
    if changed:
        for root, folder in folders.items():
            own = [document for owner, document in targets if owner is folder]
            more = dependents(folder, own, removed.get(root, ()), tables.get(root, ()))
            targets += [(folder, document) for document in more]
    elif not targets:
        raise NothingToCheck("no document with a 'kind:' of this tool is among these files")
    allowed = [FilePath(folder) for folder in allow_rules]
    refuse_not_named(allowed, [(folder.lab, folder.root) for folder in folders.values()])
    may = {folder.resolve() for folder in allowed}
    ids = {rule.id for rule in rules} | {rule.id for rule in built_in_rules()}
    judgements = [
        judge_documents(
            folder,
            [document for owner, document in targets if owner is folder],
            rules,
            as_of,
            given,
            rule_folders(folder.lab, folder.root, may, ids),
        )
        for folder in folders.values()
        if any(owner is folder for owner, _ in targets)
    ]
    return merged(judgements) if judgements else Report(documents={})


def judge_documents(
    library: Library,
    targets: Sequence[Loaded],
    rules: Sequence[Rule],
    as_of: datetime.date | None = None,
    given: Sequence[Given] = (),
    of_lab: Sequence[RuleFolder] = (),
) -> Report:
    """Judge documents that are already loaded; see `check`.

    Parameters
    ----------
    of_lab
        The rule folders that the lab's document names, with the rules loaded from them.
    """
    folder = library
    own = [rule for rule_folder in of_lab for rule in rule_folder.rules]
    rules = [*rules, *own]
    if given:
        bench = with_given(library, given)
        library, targets = bench, [bench.changed(target) for target in targets]
    assembly = Assembly(library, as_of)
    for target in targets:
        if target.kind == "sequence":
            assembly.add_sequence(target)
        else:
            assembly.use(target)
    covered = {_run_key(run.documents) for run in assembly.runs}
    for target in targets:
        if target.kind == "method":
            assembly.add_method(target)
    # A method that a sequence runs on the same instrument has been judged with its bench.
    with_bench = [run for run in assembly.runs if "sequence" in run.documents]
    alone = [
        run
        for run in assembly.runs
        if "sequence" not in run.documents and _run_key(run.documents) not in covered
    ]
    seen: dict[tuple[str, str], Case] = {}
    runs = []
    for run in [*with_bench, *alone]:
        if _run_key(run.documents) not in seen:
            seen[_run_key(run.documents)] = run
            runs.append(run)
    rehearse_cases([*assembly.batches, *runs, *with_bench])
    cases: list[Case] = [*assembly.document_cases(), *runs, *assembly.batches]
    grades = {rule.id: rule.grades for rule in (*built_in_rules(), *rules)}
    for case in cases:
        if isinstance(case, DocumentCase):
            case.rule_grades = grades
            case.rule_folders = tuple(of_lab)
    judged = [_judged_whole(case, rules, library) for case in cases]
    _look_again(judged, rules, library)
    report = _report(assembly, judged)
    report.rules_of_lab = tuple(own)
    if isinstance(folder, LabFolder):
        paths = [*report.documents, *(table.path for table in report.tables)]
        paths += [run.documents["method"].path for run in runs]
        report.lab_paths = {path: folder.under_root(path) for path in paths}
    report.runs = runs
    report.batches = assembly.batches
    report.given = tuple((item.path, item.text) for item in given)
    return report


def _judged_whole(case: Case, rules: Sequence[Rule], library: Library) -> Judged:
    result = judge_case(case, rules)
    add_remedies(result, rules, rebuild, rehearse_cases)
    set_deviations_aside(result)
    return result


def _look_again(judged: list[Judged], rules: Sequence[Rule], library: Library) -> None:
    """Judge documents once more about which the other cases have told something."""
    idle = idle_deviations(judged)
    waiting = waiting_for_purpose(judged, rules)
    for index, result in enumerate(judged):
        case = result.case
        if not isinstance(case, DocumentCase):
            continue
        case.idle = idle.get(case.document.path, case.idle)
        case.waiting = waiting.get(case.document.path, case.waiting)
        if case.idle or case.waiting:
            judged[index] = _judged_whole(case, rules, library)


def _run_key(documents: dict[str, Loaded]) -> tuple[str, str]:
    instrument = documents.get("instrument")
    return documents["method"].path, instrument.path if instrument else ""


def _judged_document(case: Case) -> Loaded:
    """Name the document that a case is about."""
    if isinstance(case, DocumentCase):
        return case.document
    return case.documents["method" if isinstance(case, RunCase) else "sequence"]


def _report(assembly: Assembly, judged: Iterable[Judged]) -> Report:
    report = Report(documents=dict(sorted(assembly.documents.items())))
    for result in judged:
        report.findings.extend(result.findings)
        report.not_checked.extend(result.not_checked)
        report.set_aside.extend(result.set_aside)
        report.failed.extend(result.failed)
        report.checked += result.checked
        report.made.setdefault(_judged_document(result.case).path, set()).update(result.made)
    report.findings = list(dict.fromkeys(sorted(report.findings, key=finding_order)))
    report.not_checked = sorted(dict.fromkeys(report.not_checked), key=_not_checked_order)
    problems = [p for document in report.documents.values() for p in document.problems]
    problems += [p for found in assembly.reference_problems.values() for p in found]
    report.unreadable = any(p.breaks and p.grade == "fault" for p in problems)
    return report


def merged(reports: Sequence[Report]) -> Report:
    """Join the reports of several lab folders."""
    if len(reports) == 1:
        return reports[0]
    whole = Report(documents={})
    for report in reports:
        whole.documents.update(report.documents)
        whole.findings += report.findings
        whole.not_checked += report.not_checked
        whole.set_aside += report.set_aside
        whole.failed += report.failed
        whole.runs += report.runs
        whole.batches += report.batches
        whole.checked += report.checked
        whole.unreadable |= report.unreadable
        whole.lab_paths.update(report.lab_paths)
        whole.rules_of_lab += report.rules_of_lab
        for path, made in report.made.items():
            whole.made.setdefault(path, set()).update(made)
        whole.given = report.given
    whole.findings.sort(key=finding_order)
    whole.not_checked.sort(key=_not_checked_order)
    return whole


def finding_order(finding: Finding) -> tuple[str, int, int, str, str, str]:
    """Order of findings in every report: document, line, column, rule."""
    place = finding.at.place
    return (
        finding.at.file,
        place.line,
        place.column,
        finding.rule,
        finding.message,
        finding.subject,
    )


def _not_checked_order(item: NotChecked) -> tuple[str, str, str]:
    return item.at.document.path, item.rule, item.subject


def _files(path: FilePath) -> Iterable[tuple[FilePath, bool]]:
    """Files of a path, each with whether it was asked for by name."""
    if path.is_dir():
        for file in yaml_files(path):
            yield file, False
        return
    if not path.exists():
        raise FileNotFoundError(f"there is no file or folder {path}")
    yield path.absolute(), True
