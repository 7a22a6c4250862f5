"""Get the bytes of a document without ever waiting for them."""

from __future__ import annotations

import errno
import os
import stat

_REASONS = {
    errno.ENOENT: "there is no such file",
    errno.ENOTDIR: "there is no such file",
    errno.EACCES: "it may not be read",
    errno.EPERM: "it may not be read",
    errno.EISDIR: "it is a folder",
    errno.ELOOP: "its links lead in a circle",
    errno.ENAMETOOLONG: "its name is too long",
}


class CannotOpen(Exception):
    """A file that cannot be read; the argument says why, in the words of a message."""


def bytes_of(name: str, most: int, *, own: bool = False) -> bytes:
    """Return up to `most` bytes of a regular file.

    Parameters
    ----------
    own
        Only a file of this user that nobody else may read or write, and no link to one.

    Raises
    ------
    CannotOpen
        When there is no such file, it is not a regular one (a folder, a pipe, a device), or it may
        not be read.
    """
    # Without O_NONBLOCK opening a named pipe waits for a writer that may never come.
    flags = os.O_RDONLY
    for option in ("O_NONBLOCK", "O_CLOEXEC", "O_NOCTTY", "O_BINARY", *["O_NOFOLLOW"] * own):
        flags |= getattr(os, option, 0)
    try:
        descriptor = os.open(name, flags)
    except OSError as error:
        reason = _REASONS.get(error.errno or 0, "it could not be opened")
        raise CannotOpen(reason) from None
    except ValueError:
        raise CannotOpen("its name is no file name") from None
    try:
        found = os.fstat(descriptor)
        mode = found.st_mode
        if not stat.S_ISREG(mode):
            raise CannotOpen("it is a folder" if stat.S_ISDIR(mode) else "it is no regular file")
        if own and hasattr(os, "geteuid") and (found.st_uid != os.geteuid() or mode & 0o077):
            raise CannotOpen("others may read or write it")
        parts = []
        while most > 0 and (part := os.read(descriptor, min(most, 1 << 20))):
            parts.append(part)
            most -= len(part)
        return b"".join(parts)
    except OSError:
        raise CannotOpen("it could not be read to its end") from None
    finally:
        os.close(descriptor)
