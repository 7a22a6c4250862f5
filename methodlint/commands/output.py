"""What commands share: refusals, what goes to standard output, files that are written."""

from __future__ import annotations

import os
import pathlib
import sys
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, TextIO

import click

if TYPE_CHECKING:
    from methodlint.commands.answer import Answer
    from methodlint.reports.lines import Line
    from methodlint.reports.prepared import Prepared


class Refused(click.ClickException):
    """Something that the user asked for cannot be done; status 2."""

    exit_code = 2

    def show(self, file: Any = None) -> None:
        """Print the reason on standard error."""
        from methodlint.documents.text.visible import visible

        click.echo(f"methodlint: {visible(self.message)}", err=True)


def formats_and_files(texts: Iterable[str]) -> list[tuple[str, str]]:
    """Read the values of `--write`, each FORMAT=FILE."""
    from methodlint.reports.formats import FORMATS

    wanted = []
    for text in texts:
        name, equals, target = text.partition("=")
        if not equals or not target or name not in FORMATS:
            raise Refused(f"--write '{text}' is not FORMAT=FILE with one of {', '.join(FORMATS)}")
        wanted.append((name, target))
    return wanted


def answer_of(prepared: Prepared, name: str) -> Answer:
    """Lay a report out in one format, with the exit status of the check."""
    from methodlint.commands.answer import Answer

    if name == "words":
        from methodlint.reports.text import prepared_lines

        lines = [
            [(part.text, str(part.tone)) for part in line]
            for line in prepared_lines(prepared, columns())
        ]
        return Answer(prepared.exit_status, lines=lines)
    from methodlint.reports.formats import written

    return Answer(prepared.exit_status, text=written(name, prepared))


def show_answer(answer: Answer) -> int:
    """Show a report on standard output; words are coloured on a terminal.

    Returns
    -------
    int
        The exit status, also when nobody reads to the end.
    """
    try:
        if answer.lines is not None:
            from methodlint.reports.lines import Words

            lines = ([Words(*part) for part in line] for line in answer.lines)  # type: ignore[arg-type]
            show_lines(lines, sys.stdout)
        if answer.text is not None:
            show_text(answer.text)
    except BrokenPipeError:
        let_go_of_output()
    return answer.status


def let_go_of_output() -> None:
    """Point standard output at nothing, so that closing it at the end stays silent."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        return


def write_reports(
    prepared: Prepared,
    wanted: Iterable[tuple[str, str]],
    paths: Iterable[str],
    others_read: Iterable[str] = (),
    shown_from: str = "",
) -> None:
    """Write a report to files, all of them or none, and never over what others wrote.

    `shown_from` is the folder that the report's paths begin in, if that is not the working folder.
    """
    targets = list(wanted)
    if not targets:
        return
    from methodlint.documents.library import lab_root
    from methodlint.reports.formats import file_text, written

    names = [target for _, target in targets]
    if len(set(names)) < len(names):
        raise Refused(f"--write {max(names, key=names.count)} is asked for twice")
    report = prepared.report
    documents = [os.path.join(shown_from, path) for path in report.documents]
    tables = [os.path.join(shown_from, table.path) for table in report.tables]
    read = (*documents, *tables, *others_read)
    texts: dict[str, str] = {}
    for name, target in targets:
        if name == "html" and target != "-" and (target.endswith("/") or os.path.isdir(target)):
            from methodlint.reports.html.folder_pages import folder_pages

            pages = folder_pages(prepared)
            texts |= {os.path.join(target, page): text for page, text in pages.items()}
            _make_folder(target)
        else:
            texts[target] = (written if target == "-" else file_text)(name, prepared)
    folders = {os.path.dirname(os.path.abspath(path)) for path in (*paths, *documents)}
    labs = {str(lab_root(pathlib.Path(folder))) for folder in folders}
    # What a change brings along must not choose what is written over either.
    labs |= {shown_from} if shown_from else set()
    write_files(texts, "--write", judged=labs, read=read)


def _make_folder(target: str) -> None:
    try:
        os.makedirs(target, exist_ok=True)
    except OSError as error:
        raise Refused(f"--write {target}: {error.strerror}") from error


def write_files(texts: Mapping[str, str], option: str, **given: Any) -> None:
    """Write texts to files; `option` is what asked for them. See `documents.writing`."""
    from methodlint.documents.text.writing import NotWritten
    from methodlint.documents.text.writing import write_files as write

    try:
        write(texts, **given)
    except NotWritten as error:
        raise Refused(f"{option} {error}") from error


def show_text(text: str) -> None:
    """Write a format for machines to standard output: UTF-8, whatever the terminal thinks."""
    from methodlint.documents.text.writing import show_bytes

    show_bytes(text.encode("utf-8"))


def show_lines(lines: Iterable[Line], stream: TextIO) -> None:
    """Write lines of words, coloured if the stream wants it."""
    from methodlint.reports.lines import write_lines

    write_lines(lines, stream, colour=wants_colour(stream))


def wants_colour(stream: TextIO) -> bool:
    """Whether to colour: NO_COLOR wins over FORCE_COLOR; only a capable terminal otherwise."""
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR"):
        return True
    return stream.isatty() and os.environ.get("TERM") != "dumb"


def as_date(text: str | None) -> Any:
    """Read a date of an option; `today` is that of the clock."""
    import datetime

    if text is None:
        return None
    if text == "today":
        return datetime.date.today()
    try:
        return datetime.date.fromisoformat(text)
    except ValueError as error:
        raise Refused(
            f"--as-of '{text}' is not a date; write it as 2026-11-25, or today"
        ) from error


def columns() -> int:
    """Columns to wrap words at: those of the terminal, or 80 where there is none."""
    if not sys.stdout.isatty() and not os.environ.get("COLUMNS"):
        return 80
    import shutil

    return max(40, shutil.get_terminal_size((80, 24)).columns)
