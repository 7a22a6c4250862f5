"""Runs our commands in processes of their own whose every opening, import and start is told."""

from __future__ import annotations

import ctypes
import json
import os
import subprocess
import sys
import sysconfig
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.hazards.hostile_lab import ROOT, Hostile

_HOOK = Path(__file__).resolve().parent / "watching"
COMMAND = Path(sysconfig.get_path("scripts")) / "methodlint"
# Where Python, its libraries and this tool lie; they are read, never the lab's to change.
_OURS = tuple(
    os.path.realpath(path)
    for path in {
        str(ROOT / "methodlint"), str(ROOT / "rules"), str(_HOOK), sys.prefix, sys.base_prefix,
        *(path for path in sys.path if path and Path(path).resolve() != ROOT),
    }
)  # fmt: skip
# Python's own tables of file kinds, which the library for workbooks asks for.
_OF_THE_SYSTEM = ("/etc/mime.types", "/dev/null", "/dev/urandom")
_STARTS = ("os.system", "os.exec", "os.fork", "os.forkpty", "os.posix_spawn", "os.spawn",
           "subprocess.Popen", "pty.spawn", "webbrowser.open", "urllib.Request")  # fmt: skip
_CHANGES = ("os.remove", "os.rename", "os.mkdir", "os.rmdir", "os.link", "os.symlink", "os.chmod",
            "os.chown", "os.truncate", "shutil.rmtree", "shutil.copyfile", "shutil.move")  # fmt: skip
_DROP_FROM_BOUNDING_SET = 24
_MAY_READ_ANYTHING = (1, 2)


@dataclass(frozen=True)
class Done:
    """What a process said and did."""

    status: int
    out: str
    err: str
    events: list[list[Any]]

    def trespasses(self, made: Hostile, *, may_write: Sequence[Path] = ()) -> Iterator[str]:
        """What it did that no check may do."""
        lab = os.path.realpath(made.lab)
        writable = tuple(os.path.realpath(path) for path in may_write)
        for event in self.events:
            name, first = event[0], str(event[1] if len(event) > 1 else "")
            if name.startswith("socket.") or name in _STARTS:
                yield f"started or connected: {event}"
            elif name in _CHANGES:
                if not (_below(os.path.realpath(first), writable) or _bytecode(first)):
                    yield f"changed: {event}"
            elif name in ("exec", "import") and (_below(first, (lab,)) or _below(
                str(event[2] if len(event) > 2 else ""), (lab,))):  # fmt: skip
                yield f"ran or imported: {event}"
            elif name in ("open", "os.listdir", "os.scandir") and len(event) > 1:
                yield from _opened(event, lab, writable)

    @property
    def watched(self) -> bool:
        """Whether the hook was there, from before our first line."""
        return any(event[0] == "open" and "methodlint" in str(event[1]) for event in self.events)


def _opened(event: list[Any], lab: str, writable: tuple[str, ...]) -> Iterator[str]:
    real = str(event[-1])
    if isinstance(event[1], int) or real in _OF_THE_SYSTEM or _below(real, writable):
        return
    flags = event[3] if event[0] == "open" and isinstance(event[3], int) else 0
    if flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT):
        if not _bytecode(real):
            yield f"opened for writing: {event}"
    elif _below(real, (lab,)):
        if real.endswith((".py", ".pyc", ".pth", ".cfg", ".ini", ".toml")):
            yield f"read code: {event}"
    elif not _below(real, _OURS) and not (event[0] == "os.listdir" and real == str(ROOT)):
        yield f"opened outside: {event}"


def _bytecode(path: str) -> bool:
    """Whether Python keeps bytecode beside files of its own or of this tool."""
    return "__pycache__" in path and _below(os.path.realpath(path), _OURS)


def _below(path: str, folders: Sequence[str]) -> bool:
    return any(path == folder or path.startswith(folder + os.sep) for folder in folders)


def no_rights_of_root() -> None:
    """Give up, before a program starts, the right to read what may not be read."""
    if sys.platform == "linux" and os.geteuid() == 0:
        libc = ctypes.CDLL(None, use_errno=True)
        for right in _MAY_READ_ANYTHING:
            libc.prctl(_DROP_FROM_BOUNDING_SET, right, 0, 0, 0)


def run(
    made: Hostile, log: Path, *arguments: str, program: Sequence[str] = (str(COMMAND),),
    timeout: float = 240, **environment: str,
) -> Done:  # fmt: skip
    """Run a command from inside the hostile lab and list what it did."""
    done = subprocess.run(
        [*program, *arguments],
        capture_output=True, cwd=made.lab, timeout=timeout, check=False, stdin=subprocess.DEVNULL,
        preexec_fn=no_rights_of_root,
        env={
            "PATH": os.environ["PATH"], "HOME": str(made.home), "PYTHONPATH": str(_HOOK),
            "METHODLINT_WATCHED": str(log), **environment,
        },
    )  # fmt: skip
    events = [json.loads(line) for line in log.read_text().splitlines()]
    log.unlink()
    return Done(done.returncode, done.stdout.decode("utf-8", "replace"),
                done.stderr.decode("utf-8", "replace"), events)  # fmt: skip


PYTHON = (sys.executable, "-m", "methodlint")
SAFE_PYTHON = (sys.executable, "-P", "-m", "methodlint")
