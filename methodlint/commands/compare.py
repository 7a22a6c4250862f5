"""The command `compare`: what a change of documents amounts to."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import click

from methodlint.commands.output import (
    Refused,
    as_date,
    columns,
    show_lines,
    show_text,
    write_files,
)

if TYPE_CHECKING:
    import datetime
    from pathlib import Path as FilePath

    from methodlint.checking.report import Report

_STATUSES = """
\b
Exit status, the highest that applies:
  0  nothing at or above --hold-at appears or gets worse
  1  something does
  2  a side could not be judged
  3  an error of this tool
"""


@click.command(epilog=_STATUSES, short_help="Set two states of documents side by side.")
@click.argument("old", type=click.Path())
@click.argument("new", type=click.Path(), required=False)
@click.option(
    "--with",
    "settings",
    multiple=True,
    metavar="KEY=VALUE",
    help="In place of NEW: the document OLD with this value, as oven_temperature='50 degC'. May "
    "be given again. Nothing is written without -o.",
)
@click.option(
    "-o",
    "output",
    metavar="FILE",
    type=click.Path(),
    help="With --with: write the changed document here; - shows it alone.",
)
@click.option(
    "--show",
    "show_format",
    type=click.Choice(["words", "json", "markdown", "html"]),
    default="words",
    show_default=True,
    help="Format on standard output.",
)
@click.option(
    "--hold-at",
    type=click.Choice(["stop", "fault", "caution", "note"]),
    default="fault",
    show_default=True,
    help="Class of finding from which on the exit status is 1 if one appears.",
)
@click.option(
    "--as-of", metavar="DATE", help="Date that dates are judged against, YYYY-MM-DD, or today."
)
def compare(
    old: str,
    new: str | None,
    settings: Sequence[str],
    output: str | None,
    show_format: str,
    hold_at: str,
    as_of: str | None,
) -> int:
    """Set two states side by side: margins, densities, worst pressures, CO2 per run, times, and
    the findings that appear and vanish.

    OLD and NEW are two documents, two folders (two revisions of a lab folder, exported), or
    reports that `check --write json=FILE` has written.

    \b
    Examples:
      methodlint compare lab-before/ lab-after/
      methodlint compare methods/assay.yaml methods/assay-lower-outlet.yaml
      methodlint compare main.json lab/ --show markdown
      methodlint compare methods/assay.yaml --with oven_temperature="50 degC"
    """
    date = as_date(as_of)
    if (new is None) == (not settings):
        raise Refused("give a NEW document, or --with KEY=VALUE in its place")
    if output is not None and not settings:
        raise Refused("-o writes the document that --with changes: there is none")
    if new is None:
        before, old_status, after, new_status, text = _with(old, settings, date)
        if output is not None:
            _write(output, text, old)
            if output == "-":
                return max(old_status, new_status)
    else:
        # Two documents side by side stand for one another whatever they are called.
        alias = "compared" if _is_document(old) and _is_document(new) else None
        before, old_status = _side(old, date, alias)
        after, new_status = _side(new, date, alias)
    from methodlint.judging.finding import GRADES
    from methodlint.reports.consequences_compared import compared

    comparison = compared(before, after)
    if show_format == "words":
        from methodlint.reports.compare_text import comparison_lines

        show_lines(comparison_lines(comparison, columns()), sys.stdout)
    elif show_format == "markdown":
        from methodlint.reports.markdown import markdown_comparison

        show_text(markdown_comparison(comparison))
    elif show_format == "html":
        from methodlint.reports.html.compare_page import compare_page

        show_text(compare_page(comparison))
    else:
        from methodlint.reports.compare_json import comparison_json

        show_text(comparison_json(comparison))
    held = GRADES.index(hold_at)
    appears = any(mark.rank <= held for mark in (*comparison.appearing, *comparison.worse))
    return max(old_status, new_status, int(appears))


def _is_document(path: str) -> bool:
    import os.path

    return os.path.isfile(path) and not path.endswith(".json")


def _side(path: str, date: datetime.date | None, alias: str | None) -> tuple[dict[str, Any], int]:
    """Judge one side, or read its report; the status is 2 or 3 if it could not be judged."""
    import os.path

    from methodlint.reports.base_report import BaseUnusable, read_base
    from methodlint.reports.fingerprint import Fingerprints
    from methodlint.reports.json_report import report_data

    try:
        if os.path.isfile(path) and path.endswith(".json"):
            base = read_base(path)
            return base, 3 if base.get("errors") else 2 if base.get("unjudged") else 0
    except (FileNotFoundError, BaseUnusable) as error:
        raise Refused(str(error)) from error
    report = _checked(path, date)
    same_as: dict[str, str] = {}
    if alias is not None:
        own = os.path.abspath(path)
        same_as = {shown: alias for shown in report.documents if os.path.abspath(shown) == own}
    return report_data(report, Fingerprints(report, same_as)), _status(report)


def _status(report: Report) -> int:
    return 3 if report.failed else 2 if report.unusable else 0


def _checked(
    path: str, date: datetime.date | None, texts: dict[FilePath, bytes] | None = None
) -> Report:
    from methodlint.checking.check import check
    from methodlint.checking.targets import NothingToCheck

    try:
        return check(path, as_of=date, texts=texts)
    except (FileNotFoundError, NothingToCheck) as error:
        raise Refused(str(error)) from error


def _with(
    path: str, settings: Sequence[str], date: datetime.date | None
) -> tuple[dict[str, Any], int, dict[str, Any], int, str | None]:
    """Judge a document as it is and with settings changed; its text too, if only that changes."""
    from methodlint.changes.texts import changed_texts
    from methodlint.checking.settings import Setting, SettingWrong, candidate_of
    from methodlint.checking.targets import targets_of
    from methodlint.documents.text.reach import real
    from methodlint.reports.json_report import report_data

    before = _checked(path, date)
    if not _is_document(path):
        raise Refused(f"{path} is not one document: --with changes settings of one")
    ((folder, documents),) = targets_of([path])
    try:
        wanted = [Setting.read(setting) for setting in settings]
        candidate = candidate_of(documents[0], wanted, before.documents.values())
    except SettingWrong as error:
        raise Refused(f"--with {error}") from error
    texts = changed_texts(candidate, folder)
    if texts is None:
        raise Refused(f"--with: {candidate.text} cannot be written into the text of the document")
    files = {real(folder.shown_from / shown): text.encode() for shown, text in texts.items()}
    after = _checked(path, date, files)
    text = texts[documents[0].path] if list(texts) == [documents[0].path] else None
    return report_data(before), _status(before), report_data(after), _status(after), text


def _write(output: str, text: str | None, path: str) -> None:
    from pathlib import Path as FilePath

    from methodlint.documents.library import lab_root

    if text is None:
        raise Refused("-o writes one document: leave out what --with changes in cards")
    root = lab_root(FilePath(path).absolute())
    write_files({output: text}, "-o", judged=[str(root)], read=[path])
