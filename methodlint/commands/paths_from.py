"""Names of files from a list: whatever they look like, they are never options."""

from __future__ import annotations

import os
import sys

from methodlint.commands.output import Refused

_MOST_BYTES = 64 * 1024 * 1024


def paths_from(source: str) -> list[str]:
    """Read names that are divided by NUL bytes, or one on a line where there is no such byte.

    Parameters
    ----------
    source
        A file, or `-` for standard input.

    Raises
    ------
    Refused
        If it cannot be read.
    """
    from methodlint.documents.text.opening import CannotOpen, bytes_of

    try:
        if source == "-":
            data = sys.stdin.buffer.read(_MOST_BYTES + 1)
        else:
            data = bytes_of(source, _MOST_BYTES + 1)
    except CannotOpen as error:
        raise Refused(f"--paths-from {source}: {error}") from error
    if len(data) > _MOST_BYTES:
        raise Refused(f"--paths-from {source}: more than {_MOST_BYTES} bytes")
    names = data.split(b"\0" if b"\0" in data else b"\n")
    if b"\0" not in data and all(name.endswith(b"\r") for name in names if name):
        names = [name.removesuffix(b"\r") for name in names]
    return [os.fsdecode(name) for name in names if name]
