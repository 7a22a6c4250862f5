"""The review of a logbook: its entries in, what was predicted and what has changed out."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from pathlib import Path as FilePath

from methodlint.checking.assemble import Assembly
from methodlint.checking.logbook_readings import history_of_logbook
from methodlint.checking.report import Report
from methodlint.documents.library import LabFolder, Library, lab_root
from methodlint.documents.loading import Loaded
from methodlint.judging.deviations import set_deviations_aside
from methodlint.judging.engine import judge_case
from methodlint.judging.history_case import HistoryCase
from methodlint.judging.loader import Rule, built_in_rules
from methodlint.judging.unjudged import unusable_documents
from methodlint.rehearsal.history.history import History

__all__ = ["NoLogbook", "Review", "review", "review_loaded"]


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
    columns: dict[str, Loaded] = field(default_factory=dict)


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
    document = folder.open(file) or folder.unreadable(file, asked_for=True)
    if document is None or document.kind != "logbook":
        said = "a logbook says kind: logbook"
        if document is not None and document.problems:
            first = document.problems[0]
            said = f"line {first.place.line}: {first.message}; {first.remedy or said}"
        elif document is not None:
            said = f"it says kind: {document.kind}; {said}"
        raise NoLogbook(f"{path} is no logbook: {said}")
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
    lab = assembly.lab
    history, columns = history_of_logbook(assembly, logbook, lab, as_of)
    documents = {"logbook": logbook}
    case = HistoryCase(documents=documents, lab=lab, as_of=as_of, history=history, columns=columns)
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
    return Review(logbook, history, report, columns)
