"""The command line. Heavy modules are imported by the command that needs them."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, TextIO

import click

from methodlint import __version__

if TYPE_CHECKING:
    from methodlint.judging.loader import Rule
    from methodlint.judging.report import Report

_STATUSES = """
\b
Exit status, the highest that applies:
  0  nothing at or above --hold-at
  1  findings at or above it, or a sequence whose stops were not looked for
  2  could not be judged: usage, or a document or reference that cannot be used
  3  an error of this tool
"""

CONTEXT = {"help_option_names": ["-h", "--help"], "max_content_width": 100}


class _Refused(click.ClickException):
    """Something that the user asked for cannot be done; status 2."""

    exit_code = 2

    def show(self, file: Any = None) -> None:
        from methodlint.documents.visible import visible

        click.echo(f"methodlint: {visible(self.message)}", err=True)


@click.group(context_settings=CONTEXT)
@click.version_option(__version__, prog_name="methodlint")
def commands() -> None:
    """Look at everything at once before an SFC run: method, column, instrument, CO2, solvents,
    room and sample list. Predicted; verify on the instrument."""


@commands.command(epilog=_STATUSES)
@click.argument("paths", nargs=-1, required=True, type=click.Path())
@click.option(
    "--hold-at",
    type=click.Choice(["stop", "fault", "caution", "note", "not-checked"]),
    default="fault",
    show_default=True,
    help="Class of finding from which on the exit status is 1.",
)
@click.option(
    "--given",
    multiple=True,
    metavar="PATH=VALUE",
    help="A figure for this run, for example supply.net_mass='12.5 kg'.",
)
@click.option("--as-of", metavar="DATE", help="Date that dates are judged against, YYYY-MM-DD.")
@click.option("--notes", is_flag=True, help="Show notes too.")
@click.option(
    "--show",
    "show_format",
    type=click.Choice(["words", "json"]),
    default="words",
    show_default=True,
    help="Format on standard output.",
)
@click.option(
    "--write", multiple=True, metavar="FORMAT=FILE", help="Write a report to a file as well."
)
def check(
    paths: Sequence[str],
    hold_at: str,
    given: Sequence[str],
    as_of: str | None,
    notes: bool,
    show_format: str,
    write: Sequence[str],
) -> int:
    """Judge documents, or folders of documents.

    \b
    Examples:
      methodlint check sequences/tonight.yaml
      methodlint check methods/ --show json
      methodlint check tonight.yaml --given supply.net_mass="12.5 kg"
    """
    from methodlint.judging.check import NothingToCheck
    from methodlint.judging.check import check as run_check
    from methodlint.judging.given import Given, GivenWrong

    try:
        figures = [Given.read(item) for item in given]
        report = run_check(*paths, as_of=_date(as_of), given=figures)
    except (FileNotFoundError, NothingToCheck, GivenWrong) as error:
        raise _Refused(str(error)) from error
    for item in write:
        _write(item, report, notes)
    _print(report, show_format, notes)
    return report.exit_status(hold_at)


_TRANSFER_STATUSES = """
\b
Exit status, the highest that applies:
  0  computed, and its check finds no fault or stop that the source does not have
  1  computed and written; faults remain, they are shown
  2  could not be computed: usage, or a document or figure that cannot be used
  3  an error of this tool
  4  no feasible transfer: nothing is written, the binding constraint is named
"""


@commands.command(epilog=_TRANSFER_STATUSES)
@click.argument("method", type=click.Path())
@click.option("--to", required=True, metavar="INSTRUMENT", help="Card of the target instrument.")
@click.option("--column", metavar="COLUMN", help="Card of the target column; default the same.")
@click.option("--from", "source", metavar="INSTRUMENT", help="Source; default first of runs_on.")
@click.option(
    "--keep",
    type=click.Choice(["separation", "duration"]),
    default="separation",
    show_default=True,
    help="Scale the flow by geometry, or keep the run length.",
)
@click.option("--shorten", is_flag=True, help="Run as fast as limits and allowances permit.")
@click.option(
    "--allowances",
    type=click.Choice(["none", "pharmacopoeial", "lab"]),
    default="none",
    show_default=True,
    help="Set of allowances that the changes are held against.",
)
@click.option("-o", "output", metavar="FILE", type=click.Path(), help="Write the method here.")
@click.option(
    "--show",
    "show_format",
    type=click.Choice(["words", "json"]),
    default="words",
    show_default=True,
    help="Format on standard output.",
)
def transfer(
    method: str,
    to: str,
    column: str | None,
    source: str | None,
    keep: Any,
    shorten: bool,
    allowances: Any,
    output: str | None,
    show_format: str,
) -> int:
    """Move a METHOD to another instrument or column. Predicted; verify.

    Beside the method, -o writes a transfer record and a verification sequence for each system.

    \b
    Examples:
      methodlint transfer methods/assay.yaml --to bench-b
      methodlint transfer methods/assay.yaml --to bench-b --column diol-3um -o assay-b.yaml
    """
    from methodlint.transfer.open_transfer import transfer as run_transfer

    try:
        moved = run_transfer(
            method,
            to,
            column,
            source_instrument=source,
            keep=keep,
            shorten=shorten,
            allowances=allowances,
            output=output,
        )
        if show_format == "json":
            from methodlint.reports.transfer_json import transfer_json

            sys.stdout.write(transfer_json(moved))
        else:
            from methodlint.reports.transfer_text import transfer_lines

            _write_lines(transfer_lines(moved), sys.stdout)
        if output is not None and moved.feasible:
            for file in moved.write(output):
                click.echo(f"written: {file}", err=True)
    except (ValueError, FileNotFoundError, FileExistsError) as error:
        raise _Refused(str(error)) from error
    return moved.exit_status()


@commands.command()
@click.argument("rule")
@click.argument("path", required=False, type=click.Path())
def why(rule: str, path: str | None) -> int:
    """Show the page of a RULE; with a PATH, where it fires there and with which figures."""
    found = _rule(rule)
    grades = ", ".join(found.grades)
    needs = ", ".join(found.needs) or "nothing beside the document"
    click.echo(f"{found.id}\n\n{found.page.strip()}\n\nClasses\n    {grades}\n\nNeeds\n    {needs}")
    if found.causes:
        click.echo(f"\nFolds beneath it\n    {', '.join(found.causes)}")
    if path is None:
        return 0
    from methodlint.judging.check import NothingToCheck
    from methodlint.judging.check import check as run_check
    from methodlint.reports.rule_in_documents import firing_lines

    try:
        report = run_check(path)
    except (FileNotFoundError, NothingToCheck) as error:
        raise _Refused(str(error)) from error
    click.echo()
    _write_lines(firing_lines(report, found.id), sys.stdout)
    return 0


@commands.command()
def rules() -> int:
    """List every rule: id, classes, what it needs, what it requires."""
    from methodlint.judging.loader import built_in_rules

    for rule in built_in_rules():
        click.echo(f"{rule.id}  ({', '.join(rule.grades)})")
        click.echo(f"    {rule.title}")
        if rule.needs:
            click.echo(f"    needs {', '.join(rule.needs)}")
    return 0


def _rule(name: str) -> Rule:
    from methodlint.documents.names import nearest
    from methodlint.judging.loader import built_in_rules

    everything = built_in_rules()
    for rule in everything:
        if rule.id == name:
            return rule
    close = [word for word, _ in nearest(name, [rule.id for rule in everything], limit=6)]
    hint = f"; did you mean {close[0]}?" if close else "; `methodlint rules` lists them"
    raise _Refused(f"there is no rule '{name}'{hint}")


def _date(text: str | None) -> Any:
    import datetime

    if text is None:
        return None
    try:
        return datetime.date.fromisoformat(text)
    except ValueError as error:
        raise _Refused(f"--as-of '{text}' is not a date; write it as 2026-11-25") from error


def _print(report: Report, show_format: str, notes: bool) -> None:
    if show_format == "json":
        from methodlint.reports.json_report import report_json

        sys.stdout.write(report_json(report))
        return
    from methodlint.reports.text import report_lines

    _write_lines(report_lines(report, notes=notes), sys.stdout)


def _write(item: str, report: Report, notes: bool) -> None:
    """Write one more format to a file, whole or not at all."""
    import pathlib
    import tempfile

    name, equals, target = item.partition("=")
    if not equals or name not in ("words", "json"):
        raise _Refused(f"--write '{item}' is not FORMAT=FILE with words or json")
    file = pathlib.Path(target)
    inputs = {pathlib.Path(path).resolve() for path in report.documents}
    if file.resolve() in inputs:
        raise _Refused(f"--write {target} would overwrite a document that was checked")
    try:
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", dir=file.parent, delete=False, newline="\n"
        ) as part:
            if name == "json":
                from methodlint.reports.json_report import report_json

                part.write(report_json(report))
            else:
                from methodlint.reports.lines import write_lines
                from methodlint.reports.text import report_lines

                write_lines(report_lines(report, notes=notes), part, colour=False)  # type: ignore[arg-type]
        os.replace(part.name, file)
    except OSError as error:
        raise _Refused(f"cannot write {target}: {error.strerror}") from error


def _write_lines(lines: Any, stream: TextIO) -> None:
    from methodlint.reports.lines import write_lines

    write_lines(lines, stream, colour=wants_colour(stream))


def wants_colour(stream: TextIO) -> bool:
    """Whether to colour: NO_COLOR wins over FORCE_COLOR; only a capable terminal otherwise."""
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR"):
        return True
    return stream.isatty() and os.environ.get("TERM") != "dumb"


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and exit with the status that it documents."""
    raise SystemExit(_guarded(lambda: _run(arguments)))


def _run(arguments: Sequence[str] | None) -> int:
    try:
        status = commands.main(
            args=None if arguments is None else list(arguments),
            prog_name="methodlint",
            standalone_mode=False,
        )
    except click.exceptions.Exit as ended:
        return ended.exit_code
    except click.ClickException as refused:
        refused.show()
        return 2
    sys.stdout.flush()
    return status if isinstance(status, int) else 0


def _guarded(run: Callable[[], int]) -> int:
    """Turn what may go wrong around a command into a line and a status, never a traceback."""
    try:
        return run()
    except (KeyboardInterrupt, click.Abort):
        return 130
    except BrokenPipeError:
        # The reader has gone; point stdout at nothing so that closing it stays silent.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as error:
        sys.stderr.write(f"methodlint: {error.strerror or error}\n")
        return 2
    except Exception as error:
        sys.stderr.write(
            f"methodlint: an error of this tool: {type(error).__name__}: {error}\n"
            "set METHODLINT_TRACE=1 to see where, and report it with the documents\n"
        )
        if os.environ.get("METHODLINT_TRACE"):
            import traceback

            traceback.print_exc()
        return 3
