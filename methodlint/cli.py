"""The command line. Heavy modules are imported by the command that needs them."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from types import FrameType

import click

from methodlint.checking.throttled_gc import throttle_gc
from methodlint.commands.check import check
from methodlint.commands.compare import compare
from methodlint.commands.editor import editor
from methodlint.commands.new import new
from methodlint.commands.output import Refused, let_go_of_output
from methodlint.commands.review import review
from methodlint.commands.rules import rules, try_rules, why
from methodlint.commands.schema import schema
from methodlint.commands.start import start
from methodlint.commands.transfer import transfer
from methodlint.commands.window import window
from methodlint.version import __version__

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


commands.add_command(check)
commands.add_command(compare)
commands.add_command(editor)
commands.add_command(new)
commands.add_command(review)
commands.add_command(rules)
commands.add_command(schema)
commands.add_command(start)
commands.add_command(transfer)
commands.add_command(try_rules)
commands.add_command(why)
commands.add_command(window)


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
    throttle_gc()
    # No code of other packages has a say in how documents are read.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        if "" in given:
            raise Refused(
                f"argument {given.index('') + 1} is empty: a file, name or value is missing"
            )
        status = commands.main(
            args=given,
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
        from methodlint.documents.text.visible import visible

        sys.stderr.write(
            f"methodlint: an error of this tool: {type(error).__name__}: {visible(str(error))}\n"
            "set METHODLINT_TRACE=1 to see where, and report it with the documents\n"
        )
        if os.environ.get("METHODLINT_TRACE"):
            import traceback

            traceback.print_exc()
        return 3
