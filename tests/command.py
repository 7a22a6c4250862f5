"""Runs our commands for tests: inside the test's process, or in one of their own.

`run` is for nearly every test: it gives what a process would give and costs no start. `process`
is for the few whose subject is the process itself: pipes, signals, hash seeds, what is imported.
"""

from __future__ import annotations

import contextlib
import gc
import io
import os
import subprocess
import sys
import traceback
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

ROOT = Path(__file__).resolve().parent.parent
PYTHON = (sys.executable, "-m", "methodlint")

_LAB_RULES = "methodlint_lab_rules"
# What the terminal of a contributor may have set must not decide a test.
_UNSET = (
    "CLICOLOR_FORCE", "FORCE_COLOR", "LINES", "METHODLINT_TRACE", "NO_COLOR", "PYTHONHASHSEED",
    "PYTHONIOENCODING", "PYTHONUTF8", "PYTHONWARNINGS", "XDG_CACHE_HOME",
)  # fmt: skip
# Nothing is remembered between checks where CI is set.
_SET = {"CI": "1", "COLUMNS": "80", "PYTHONPATH": str(ROOT)}


@dataclass(frozen=True)
class Done:
    """How a command ended.

    Attributes
    ----------
    status
        Exit status.
    out, err
        Bytes on standard output and standard error.
    encoding
        Encoding of both streams.
    """

    status: int
    out: bytes
    err: bytes
    encoding: str = "utf-8"

    @property
    def stdout(self) -> str:
        """Text on standard output."""
        return self.out.decode(self.encoding)

    @property
    def stderr(self) -> str:
        """Text on standard error."""
        return self.err.decode(self.encoding)


def environment(changes: Mapping[str, str | None] | None = None) -> dict[str, str]:
    """Environment of a command: the test's own without a user's settings, and changes to it.

    Parameters
    ----------
    changes
        Variables to set; None takes one out.
    """
    wanted = {name: value for name, value in os.environ.items() if name not in _UNSET} | _SET
    for name, value in (changes or {}).items():
        wanted.pop(name, None)
        if value is not None:
            wanted[name] = value
    return wanted


def run(
    *arguments: str | Path,
    cwd: Path = ROOT,
    stdin: str | bytes = b"",
    env: Mapping[str, str | None] | None = None,
) -> Done:
    """Run `methodlint` inside this process, by the entry that the installed command has.

    The working folder, the environment, the arguments and the standard streams are those of a
    process that starts now, and are put back afterwards. So is what a check changes for the rest
    of a process: how often garbage is collected, and modules of a lab's own rules. What is
    memoized per content (the built-in rules, tables, readings of texts) is kept.

    Parameters
    ----------
    arguments
        What follows `methodlint` on the command line.
    cwd
        Working folder; the repository by default.
    stdin
        What is on standard input.
    env
        Variables of the environment to set; None takes one out. `PYTHONIOENCODING` is heeded,
        and other variables that an interpreter reads at its start are not: see `process`.
    """
    variables = environment(env)
    encoding, _, errors = variables.get("PYTHONIOENCODING", "utf-8").partition(":")
    text = stdin.encode(encoding) if isinstance(stdin, str) else stdin
    out, err = _Kept(), _Kept()
    streams = {
        "stdin": io.TextIOWrapper(io.BytesIO(text), encoding, errors or None),
        "stdout": io.TextIOWrapper(out, encoding, errors or None),
        "stderr": io.TextIOWrapper(err, encoding, "backslashreplace", line_buffering=True),
    }
    with (
        _restored(),
        contextlib.chdir(cwd),
        mock.patch.dict(os.environ, variables, clear=True),
        mock.patch.multiple(sys, argv=["methodlint", *map(str, arguments)], **streams),
    ):
        status = _status()
        for name in ("stdout", "stderr"):
            stream = getattr(sys, name)
            if not stream.closed:
                stream.flush()
                stream.detach()
    return Done(status, out.getvalue(), err.getvalue(), encoding)


def process(
    *arguments: str | Path,
    cwd: Path = ROOT,
    stdin: str | bytes = b"",
    env: Mapping[str, str | None] | None = None,
    program: tuple[str, ...] = PYTHON,
) -> Done:
    """Run `methodlint` in a process of its own; see `run`."""
    done = subprocess.run(
        [*program, *map(str, arguments)],
        cwd=cwd,
        input=stdin.encode("utf-8") if isinstance(stdin, str) else stdin,
        env=environment(env),
        capture_output=True,
        timeout=240,
        check=False,
    )
    return Done(done.returncode, done.stdout, done.stderr)


class _Kept(io.BytesIO):
    """Bytes that can be read after the command has closed the stream, as the editor's does."""

    def close(self) -> None:
        """Keep everything."""


def _status() -> int:
    """Call the entry; give the status with which an interpreter would end after it."""
    from methodlint.cli import main

    try:
        main()
    except SystemExit as ended:
        if ended.code is None or isinstance(ended.code, int):
            return ended.code or 0
        sys.stderr.write(f"{ended.code}\n")
        return 1
    except BaseException as error:
        if type(error).__module__.startswith(("_pytest", "pytest")):
            raise
        traceback.print_exc()
        return 1
    return 0


@contextlib.contextmanager
def _restored() -> Iterator[None]:
    """Put back what a command changes in a process that is all its own."""
    thresholds, path, before = gc.get_threshold(), list(sys.path), set(sys.modules)
    try:
        yield
    finally:
        gc.set_threshold(*thresholds)
        sys.path[:] = path
        for name in set(sys.modules) - before:
            if name.partition(".")[0] == _LAB_RULES:
                del sys.modules[name]
