"""The command line. Heavy modules are imported by the command that needs them."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from types import FrameType

import click

from methodlint import __version__
from methodlint.commands.compare import compare
from methodlint.commands.editor import editor
from methodlint.commands.new import new
from methodlint.commands.output import (
    Refused,
    answer_of,
    as_date,
    formats_and_files,
    let_go_of_output,
    show_answer,
    write_reports,
)
from methodlint.commands.rules import ALLOW_RULES, rules, try_rules, why
from methodlint.commands.schema import schema
from methodlint.commands.transfer import transfer
from methodlint.judging.rubbish import look_for_rubbish_rarely
from methodlint.reports.formats import FORMATS

_STATUSES = """
\b
Exit status, the highest that applies:
  0  nothing at or above --hold-at
  1  findings at or above it, or a sequence whose stops were not looked for
  2  could not be judged: usage, or a document or reference that cannot be used
  3  an error of this tool
"""

CONTEXT = {"help_option_names": ["-h", "--help"], "max_content_width": 100}


class _Commands(click.Group):
    def invoke(self, ctx: click.Context) -> object:
        """Run a command; whoever reads its output may have had enough of it."""
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            let_go_of_output()
            return 0


@click.group(cls=_Commands, context_settings=CONTEXT)
@click.version_option(__version__, prog_name="methodlint")
def commands() -> None:
    """Look at everything at once before an SFC run: method, column, instrument, CO2, solvents,
    room and sample list. Predicted; verify on the instrument."""


commands.add_command(compare)
commands.add_command(editor)
commands.add_command(new)
commands.add_command(rules)
commands.add_command(schema)
commands.add_command(transfer)
commands.add_command(try_rules)
commands.add_command(why)


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
@click.option(
    "--as-of",
    metavar="DATE",
    help="Date that dates are judged against, YYYY-MM-DD, or today. Default: the sequence's start.",
)
@click.option("--notes", is_flag=True, help="Show notes too.")
@click.option(
    "--show",
    "show_format",
    type=click.Choice(list(FORMATS)),
    default="words",
    show_default=True,
    help="Format on standard output.",
)
@click.option(
    "--write",
    multiple=True,
    metavar="FORMAT=FILE",
    help="Write the same report to a file as well; may be given again for other formats.",
)
@click.option(
    "--dependents",
    is_flag=True,
    help="PATHS are what has changed: judge every method and sequence that depends on them too.",
)
@click.option(
    "--against",
    metavar="REPORT",
    type=click.Path(),
    help="Report in JSON of another state, to tell what is new from what was there.",
)
@click.option(
    "--hold-new",
    is_flag=True,
    help="With --against: only what is new counts for the exit status. A stop counts always.",
)
@click.option(
    "--workers",
    type=click.IntRange(1, 256),
    default=1,
    show_default=True,
    help="Processes to judge folders of many documents with; pages are made by one. The report "
    "stays the same.",
)
@click.option(
    "--cache",
    metavar="FOLDER",
    help="Where the reports of unchanged folders are remembered, or 'off'. Default: the user's "
    "cache folder; off where CI is set.",
)
@ALLOW_RULES
def check(
    paths: Sequence[str],
    hold_at: str,
    given: Sequence[str],
    as_of: str | None,
    notes: bool,
    show_format: str,
    write: Sequence[str],
    dependents: bool,
    against: str | None,
    hold_new: bool,
    workers: int,
    cache: str | None,
    allow_rules: Sequence[str],
) -> int:
    """Judge documents, or folders of documents.

    \b
    Examples:
      methodlint check sequences/tonight.yaml
      methodlint check methods/ --show json
      methodlint check tonight.yaml --given supply.net_mass="12.5 kg"
      methodlint check columns/diol-3um.yaml --dependents --write sarif=out.sarif
      methodlint check . --against main.json --hold-new --show markdown
    """
    if hold_new and against is None:
        raise Refused("--hold-new needs --against REPORT to tell what is new")
    wanted = formats_and_files(write)
    day = as_date(as_of)
    memory = None
    if not (wanted or against or dependents):
        from methodlint.commands.remembered import Remembered, cache_folder

        asked = {"as_of": str(day), "given": list(given), "hold_at": hold_at, "notes": notes}
        asked["show"] = show_format
        memory = Remembered.of(cache_folder(cache, os.environ), paths, asked, allow_rules)
        answer = memory.answer() if memory is not None else None
        if answer is not None:
            return show_answer(answer)
    from methodlint.judging.check import check as check_whole
    from methodlint.judging.given import Given, GivenWrong
    from methodlint.judging.lab_rules import RulesNotNamed
    from methodlint.judging.targets import NothingToCheck
    from methodlint.many.check_many import check_with_workers
    from methodlint.reports.base_report import BaseUnusable, read_base
    from methodlint.reports.formats import WITH_ARRAYS
    from methodlint.reports.prepared import Prepared

    try:
        base = read_base(against) if against is not None else None
        figures = [Given.read(item) for item in given]
        options = {
            "as_of": day,
            "given": figures,
            "changed": dependents,
            "allow_rules": allow_rules,
        }
        if WITH_ARRAYS & {show_format, *(name for name, _ in wanted)}:
            report = check_whole(*paths, **options)
        else:
            report = check_with_workers(paths, workers, **options)
    except (FileNotFoundError, NothingToCheck, GivenWrong, BaseUnusable, RulesNotNamed) as error:
        raise Refused(str(error)) from error
    if not report.documents:
        click.echo("methodlint: none of these files concerns a document of this tool", err=True)
    prepared = Prepared(report, notes=notes, hold_at=hold_at, base=base, new_only=hold_new)
    write_reports(prepared, wanted, paths, () if against is None else (against,))
    answer = answer_of(prepared, show_format)
    if memory is not None and answer.status != 3:
        memory.keep(answer)
    return show_answer(answer)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and exit with the status that it documents."""
    _open_what_is_closed()
    with _ended_by_exception():
        status = _guarded(lambda: _run(arguments))
    raise SystemExit(status)


class _Ended(BaseException):
    """A signal asks this process to end; the argument is its number."""


@contextmanager
def _ended_by_exception() -> Iterator[None]:
    """Let signals that ask for an end clear up as an interrupt does: no half file, no worker left."""

    def end(number: int, frame: FrameType | None) -> None:
        raise _Ended(number)

    before = {}
    for name in ("SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)
        # Whoever has them ignored, as `nohup` does, means it.
        if number is not None and signal.getsignal(number) is signal.SIG_DFL:
            try:
                before[number] = signal.signal(number, end)
            except ValueError:  # not the main thread
                break
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _open_what_is_closed() -> None:
    """Stand in for streams that whoever started us has closed."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            nothing = os.open(os.devnull, os.O_WRONLY)
            setattr(sys, name, os.fdopen(nothing, "w", encoding="utf-8"))


def _run(arguments: Sequence[str] | None) -> int:
    # Every system of equations here is small: threads for them cost more than they save.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    look_for_rubbish_rarely()
    # No code of other packages has a say in how documents are read.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
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
    try:
        # The server for editors closes it when it is done.
        if not sys.stdout.closed:
            sys.stdout.flush()
    except BrokenPipeError:
        let_go_of_output()
    return status if isinstance(status, int) else 0


def _guarded(run: Callable[[], int]) -> int:
    """Turn what may go wrong around a command into a line and a status, never a traceback."""
    try:
        return run()
    except (KeyboardInterrupt, click.Abort):
        return 130
    except _Ended as ended:
        let_go_of_output()
        return 128 + int(ended.args[0])
    except BrokenPipeError:
        let_go_of_output()
        return 0
    except OSError as error:
        try:
            sys.stdout.flush()
        except (OSError, ValueError):
            # What could not be written now cannot be written when the process ends either.
            let_go_of_output()
        sys.stderr.write(f"methodlint: {error.strerror or error}\n")
        return 2
    except Exception as error:
        from methodlint.documents.visible import visible

        sys.stderr.write(
            f"methodlint: an error of this tool: {type(error).__name__}: {visible(str(error))}\n"
            "set METHODLINT_TRACE=1 to see where, and report it with the documents\n"
        )
        if os.environ.get("METHODLINT_TRACE"):
            import traceback

            traceback.print_exc()
        return 3
