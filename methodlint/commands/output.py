"""What commands share: refusals, what goes to standard output, files that are written."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
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
        from methodlint.documents.visible import visible

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
            [(part.text, str(part.tone)) for part in line] for line in prepared_lines(prepared)
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
    prepared: Prepared, wanted: Iterable[tuple[str, str]], others_read: Iterable[str] = ()
) -> None:
    """Write a report to files, each whole or not at all and never over what was read."""
    from methodlint.reports.formats import written

    targets = list(wanted)
    files = [os.path.realpath(target) for _, target in targets]
    report = prepared.report
    read = (*report.documents, *(table.path for table in report.tables), *others_read)
    inputs = {os.path.realpath(path) for path in read}
    for (_, target), file in zip(targets, files, strict=True):
        if file in inputs:
            raise Refused(f"--write {target} would overwrite a document or report that was read")
        if files.count(file) > 1:
            raise Refused(f"--write {target} is asked for twice")
    for name, target in targets:
        write_file(written(name, prepared), target)


def write_file(text: str, target: str, *, option: str = "--write") -> None:
    """Write a text to a file by way of a file beside it; `option` is what asked for it."""
    import pathlib
    import tempfile

    file = pathlib.Path(target)
    part = None
    try:
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", dir=file.parent, delete=False, newline="\n"
        ) as stream:
            part = stream.name
            stream.write(text)
        os.chmod(part, 0o666 & ~_umask())
        os.replace(part, file)
    except BaseException as error:
        if part is not None and os.path.exists(part):
            os.unlink(part)
        if isinstance(error, OSError):
            why = error.strerror
            if isinstance(error, FileNotFoundError):
                why = f"there is no folder {file.parent}; make it first"
            raise Refused(f"{option}: cannot write {target}: {why}") from error
        raise


def _umask() -> int:
    # There is no way to ask for it but to set it.
    mask = os.umask(0o077)
    os.umask(mask)
    return mask


def show_text(text: str) -> None:
    """Write a format for machines to standard output: UTF-8, whatever the terminal thinks."""
    stream = getattr(sys.stdout, "buffer", None)
    if stream is None:
        sys.stdout.write(text)
        return
    sys.stdout.flush()
    stream.write(text.encode("utf-8"))


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
    """Read a date of an option."""
    import datetime

    if text is None:
        return None
    try:
        return datetime.date.fromisoformat(text)
    except ValueError as error:
        raise Refused(f"--as-of '{text}' is not a date; write it as 2026-11-25") from error


def columns() -> int:
    """Columns to wrap words at: those of the terminal, or 80 where there is none."""
    if not sys.stdout.isatty() and not os.environ.get("COLUMNS"):
        return 80
    import shutil

    return max(40, shutil.get_terminal_size((80, 24)).columns)
