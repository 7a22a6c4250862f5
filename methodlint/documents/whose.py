"""Tell whether a YAML file that cannot be used was meant for this tool or is somebody else's.

A repository holds other YAML too: workflows, templates, values of other programs, some of which
is no YAML on its own. It is passed over in silence; a card of ours that is broken must not be.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path as FilePath
from typing import Any

from methodlint.documents.kinds.base import Document
from methodlint.documents.loading import KINDS, model_class
from methodlint.documents.text.names import nearest
from methodlint.documents.text.reader import Read

_LOOKED_AT = 200_000
_KIND = re.compile(r"""^['"]?kind['"]?[ \t]*:[ \t]*['"]?([^\s'"#,}]+)""", re.MULTILINE)
_ENOUGH = 2
"""Keys of a kind that no other program's file has by chance."""


@dataclass(frozen=True, slots=True)
class Meant:
    """The kind that a document without a valid one was probably meant to have.

    Attributes
    ----------
    kind
        One of the kinds.
    key
        What stands in place of `kind`; empty if nothing does.
    keys
        Keys of the document that belong to the kind.
    beneath
        The key that the whole document is indented below; empty if it is not.
    """

    kind: str
    key: str = ""
    keys: tuple[str, ...] = ()
    beneath: str = ""


def meant(plain: Mapping[str, Any]) -> Meant | None:
    """Say which kind a mapping without a valid kind was meant to be; None if it is none of ours.

    It is ours where a misspelt `kind` gives one of our kinds, and where it, or all that is beneath
    one of its keys, has two keys of a kind that not every kind has. A lab's own document is known
    by its name and not by its keys.
    """
    for key, value in plain.items():
        if isinstance(value, str) and value in KINDS and nearest(str(key), ("kind",), limit=1):
            return Meant(value, str(key), _keys_of(value, plain))
    kind = max((kind for kind in KINDS if kind != "lab"), key=lambda one: len(_keys_of(one, plain)))
    if len(_keys_of(kind, plain)) >= _ENOUGH:
        return Meant(kind, keys=_keys_of(kind, plain))
    for key, value in plain.items():
        named = value.get("kind") if isinstance(value, dict) else None
        if named in KINDS and len(_keys_of(named, value)) >= _ENOUGH:
            return Meant(named, keys=_keys_of(named, value), beneath=str(key))
    return None


def _keys_of(kind: str, plain: Mapping[str, Any]) -> tuple[str, ...]:
    return tuple(key for key in plain if key in _own_keys()[kind])


@cache
def _own_keys() -> dict[str, frozenset[str]]:
    shared = Document.model_fields.keys() | {"kind"}
    return {kind: frozenset(model_class(kind).model_fields.keys() - shared) for kind in KINDS}


def is_methodlint_file(read: Read, file: FilePath, *, folders: Collection[str], lab: bool) -> bool:
    """Whether a file was meant as a document of this tool.

    Parameters
    ----------
    read
        The file as read; it has no usable kind.
    file
        The file.
    folders
        Names of the folders that a lab keeps its documents in.
    lab
        Whether the file lies in a folder with a lab's own document.

    Returns
    -------
    bool
        True where it says a kind of ours, or nearly one, where it has the keys of one, where it
        lies unread in a lab's folder for such documents, and where it cannot be opened in a lab. A
        sound text without a kind and without such keys is never ours.
    """
    plain = read.plain()
    if isinstance(plain, dict):
        if meant(plain) is not None:
            return True
        if plain.get("kind") is None and ("kind",) not in read.broken:
            return False
    if lab and file.parent.name in folders:
        return True
    if not read.sha256:
        return lab and _not_opened(read)
    return any(_is_nearly(word) for word in _kinds_written(read))


def _not_opened(read: Read) -> bool:
    return any(problem.rule == "document.unreadable" for problem in read.problems)


def _kinds_written(read: Read) -> Iterator[str]:
    plain = read.plain()
    if isinstance(plain, dict) and plain.get("kind") is not None:
        yield str(plain["kind"])
        return
    # Not a tree: the bytes may be in another encoding, of which the letters remain.
    text = read.data[:_LOOKED_AT].replace(b"\0", b"").decode("latin-1")
    yield from _KIND.findall(text.lstrip("\xef\xbb\xbf\xff\xfe"))


def _is_nearly(word: str) -> bool:
    word = word.strip().lower()
    near = nearest(word, sorted(KINDS), limit=2, count=1)
    return bool(near) and (near[0][1] <= 1 or len(word) > 5)
