"""Tell whether a YAML file that cannot be used was meant for this tool or is somebody else's.

A repository holds other YAML too: workflows, templates, values of other programs, some of which
is no YAML on its own. It is passed over in silence; a card of ours that is broken must not be.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from pathlib import Path as FilePath

from methodlint.documents.names import nearest
from methodlint.documents.reader import Read

_LOOKED_AT = 200_000
_KIND = re.compile(r"""^['"]?kind['"]?[ \t]*:[ \t]*['"]?([^\s'"#,}]+)""", re.MULTILINE)


def is_ours(
    read: Read, file: FilePath, *, kinds: Collection[str], folders: Collection[str], lab: bool
) -> bool:
    """Whether a file was meant as a document of this tool.

    Parameters
    ----------
    read
        The file as read; it has no usable kind.
    file
        The file.
    kinds
        Kinds of documents.
    folders
        Names of the folders that a lab keeps its documents in.
    lab
        Whether the file lies in a folder with a lab's own document.

    Returns
    -------
    bool
        True where it says a kind of ours, or nearly one, where it lies unread in a lab's folder for
        such documents, and where it cannot be opened in a lab. A sound text without a kind is
        never ours.
    """
    plain = read.plain()
    if isinstance(plain, dict) and plain.get("kind") is None:
        return False
    if lab and file.parent.name in folders:
        return True
    if not read.sha256:
        return lab and _not_opened(read)
    return any(_is_nearly(word, kinds) for word in _kinds_written(read))


def _not_opened(read: Read) -> bool:
    return any(problem.rule == "document.unreadable" for problem in read.problems)


def _kinds_written(read: Read) -> Iterator[str]:
    plain = read.plain()
    if isinstance(plain, dict):
        if plain.get("kind") is not None:
            yield str(plain["kind"])
        return
    # Not a tree: the bytes may be in another encoding, of which the letters remain.
    text = read.data[:_LOOKED_AT].replace(b"\0", b"").decode("latin-1")
    yield from _KIND.findall(text.lstrip("\xef\xbb\xbf\xff\xfe"))


def _is_nearly(word: str, kinds: Collection[str]) -> bool:
    word = word.strip().lower()
    near = nearest(word, sorted(kinds), limit=2, count=1)
    return bool(near) and (near[0][1] <= 1 or len(word) > 5)
