"""Writes files: whole or not at all, and never over what somebody else wrote.

A file that is there is replaced only if its content shows that this tool wrote it. Nothing is
written through a link inside a lab's folder: whoever can add a file to a repository could choose
what is overwritten. Pipes and devices are written to as they are, outside such a folder only.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import re
import secrets
import stat
import sys
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from methodlint.documents.text.opening import CannotOpen, bytes_of
from methodlint.documents.text.visible import visible
from methodlint.version import __version__

__all__ = ["NotWritten", "ending", "look_at_targets", "show_bytes", "write_files"]

STANDARD_OUTPUT = "-"
_LONGEST = 256 * 1024 * 1024
_TOOL = re.compile(rb'"(?:tool|driver)":\s*\{\s*"name":\s*"methodlint"')
_HEADS = (b'<testsuites name="methodlint"', b'<meta name="generator" content="methodlint ')
_ENDING = "written by methodlint"
_LAST_LINE = re.compile(
    rb"(?:\A|\n)(?:<!-- )?written by methodlint [0-9][0-9A-Za-z.+]*(?: -->)?\n\Z"
)
_KIND = re.compile(rb"^kind:[ \t]*([a-z]{1,20})[ \t]*\r?$", re.MULTILINE)
_OUTPUTS = (STANDARD_OUTPUT, "/dev/stdout", "/dev/fd/1", "/proc/self/fd/1")
_STREAMS = ("/dev/fd/", "/dev/stderr", "/proc/")


class NotWritten(OSError):
    """A file may not or cannot be written; the message says which and why."""


class WouldOverwrite(NotWritten, FileExistsError):
    """A file is there that this tool did not write."""


@dataclass(frozen=True, slots=True)
class _Target:
    """Where a text goes: a file by its real path, or as it is where `replace` is false."""

    name: str
    real: str
    replace: bool


def write_files(
    texts: Mapping[str, str],
    *,
    judged: Collection[str] = (),
    read: Iterable[str] = (),
    hashes: Collection[str] = (),
) -> None:
    """Write texts to files, all of them or none; `-` is standard output.

    Parameters
    ----------
    texts : mapping of str to str
        Text by name of the file.
    judged : collection of str
        Folders of labs.
    read : iterable of str
        Files that were read.
    hashes : collection of str
        SHA-256 of files that this tool wrote before, beside those that tell it by themselves.

    Raises
    ------
    NotWritten
        When one of them may not or cannot be written.
    """
    targets = look_at_targets(texts, judged=judged, read=read, hashes=hashes)
    parts: list[str] = []
    name = ""
    try:
        for name, target in targets.items():
            if target.replace:
                folder, file = os.path.split(target.real)
                parts.append(os.path.join(folder, f".{file[:80]}.{secrets.token_hex(8)}"))
                _write_new(parts[-1], texts[name])
        replaced = (target for target in targets.values() if target.replace)
        for part, target in zip(parts, replaced, strict=True):
            name = target.name
            os.replace(part, target.real)
        for name, target in targets.items():
            if not target.replace:
                _write_in_place(target, texts[name])
    except OSError as error:
        if name in _OUTPUTS:
            raise
        raise NotWritten(f"cannot write {visible(name)}: {_why(error, name)}") from error
    finally:
        for part in parts:
            with contextlib.suppress(OSError):
                os.unlink(part)


def look_at_targets(
    names: Iterable[str],
    *,
    judged: Collection[str] = (),
    read: Iterable[str] = (),
    hashes: Collection[str] = (),
) -> dict[str, _Target]:
    """Look whether files may be written; see `write_files`.

    Raises
    ------
    NotWritten
        When one of them may not.
    """
    folders = [os.path.realpath(folder) for folder in judged]
    inputs = {os.path.realpath(file) for file in read}
    targets: dict[str, _Target] = {}
    for name in names:
        target = _target(name, folders, inputs, hashes)
        if target.real in {other.real for other in targets.values()}:
            raise NotWritten(f"{visible(name)} is asked for twice")
        targets[name] = target
    return targets


def ending(opened: str = "", closed: str = "") -> str:
    """Last line of a text that does not tell by itself that this tool wrote it."""
    return f"{opened}{_ENDING} {__version__}{closed}\n"


def show_bytes(data: bytes) -> None:
    """Write bytes to standard output as they are."""
    stream = getattr(sys.stdout, "buffer", None)
    if stream is None:
        sys.stdout.write(data.decode("utf-8"))
        return
    sys.stdout.flush()
    stream.write(data)


def _target(name: str, folders: list[str], inputs: set[str], hashes: Collection[str]) -> _Target:
    if name in _OUTPUTS:
        return _Target(name, STANDARD_OUTPUT, replace=False)
    shown = visible(name)
    try:
        real = os.path.realpath(name)
        mode = os.stat(name).st_mode
    except FileNotFoundError:
        mode = 0
    except (OSError, ValueError) as error:
        raise NotWritten(f"cannot write {shown}: {_why(error, name)}") from error
    link = _link_inside(name, folders)
    if link is not None:
        raise NotWritten(
            f"{shown} leads through the link {visible(link)} in the lab's folder; name the file itself"
        )
    if real in inputs:
        raise WouldOverwrite(f"{shown} would overwrite a document or report that was read")
    special = mode and not stat.S_ISREG(mode) and not stat.S_ISDIR(mode)
    if special or os.path.abspath(name).startswith(_STREAMS):
        if any(_below(real, folder) for folder in folders):
            raise NotWritten(
                f"{shown} is a pipe or device in the lab's folder; name one outside it"
            )
        return _Target(name, name, replace=False)
    if stat.S_ISDIR(mode):
        raise NotWritten(f"cannot write {shown}: it is a folder")
    if mode:
        _refuse_others(real, shown, hashes)
    return _Target(name, real, replace=True)


def _refuse_others(file: str, shown: str, hashes: Collection[str]) -> None:
    try:
        data = bytes_of(file, _LONGEST)
    except CannotOpen as error:
        raise NotWritten(f"{shown} is there and cannot be looked at: {error}") from None
    if not data.strip() or _is_ours(data):
        return
    if hashlib.sha256(data).hexdigest() in hashes:
        return
    kind = _KIND.search(data[:65_536])
    what = f"a {kind[1].decode()} document" if kind else "a file"
    raise WouldOverwrite(
        f"{shown} is {what} that this tool did not write, or that was edited since; choose another name or "
        "move it away"
    )


def _is_ours(data: bytes) -> bool:
    """Whether a report or record tells that this tool wrote it."""
    head = data[:1_000]
    return (
        (head.lstrip().startswith(b"{") and _TOOL.search(data) is not None)
        or (head.startswith(b"<") and any(mark in head for mark in _HEADS))
        or _LAST_LINE.search(data[-200:]) is not None
    )


def _link_inside(name: str, folders: list[str]) -> str | None:
    """Return the link on the way to a file that lies in one of the folders; None without one."""
    at = os.path.abspath(name)
    while (above := os.path.dirname(at)) != at:
        if os.path.islink(at):
            beside = os.path.realpath(above)
            if any(_below(beside, folder) for folder in folders):
                return at
        at = above
    return None


def _below(path: str, folder: str) -> bool:
    return path == folder or path.startswith(folder.rstrip(os.sep) + os.sep)


def _write_new(file: str, text: str) -> None:
    # Not by `tempfile`: others of the lab read these files, as far as the umask lets them.
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    with os.fdopen(os.open(file, flags, 0o666), "wb") as stream:
        stream.write(text.encode("utf-8"))


def _write_in_place(target: _Target, text: str) -> None:
    data = text.encode("utf-8")
    if target.real == STANDARD_OUTPUT:
        show_bytes(data)
        return
    flags = os.O_WRONLY | os.O_APPEND | getattr(os, "O_NOCTTY", 0) | getattr(os, "O_BINARY", 0)
    with os.fdopen(os.open(target.name, flags), "wb") as stream:
        stream.write(data)


def _why(error: OSError | ValueError, name: str) -> str:
    if isinstance(error, FileNotFoundError):
        return f"there is no folder {visible(os.path.dirname(name) or '.')}; make it first"
    if isinstance(error, OSError):
        return error.strerror or "the system refuses it"
    return "its name is no file name"
