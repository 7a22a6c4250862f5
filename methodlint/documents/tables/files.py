"""Finds and reads the file of a sample table, never outside the lab's folder."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path as FilePath

from methodlint.documents.tables.grid import LIMITS
from methodlint.documents.text.names import nearest
from methodlint.documents.text.opening import CannotOpen, bytes_of
from methodlint.documents.text.reach import is_file, leaves, names_in
from methodlint.documents.text.visible import visible

TEXTS = (".csv", ".tsv", ".txt")
WORKBOOKS = (".xlsx",)
SUFFIXES = (*TEXTS, *WORKBOOKS)
_STEP = re.compile(r"[^\W_][\w .+()\-]*\Z")


@dataclass(frozen=True, slots=True)
class TableFile:
    """A table as it lies on disk.

    Attributes
    ----------
    path : str
        Path as shown.
    data : bytes
        What it was read from.
    sha256 : str
        Hash of the data.
    """

    path: str
    data: bytes
    sha256: str

    @property
    def workbook(self) -> bool:
        """Whether it is a workbook and not a text."""
        return self.path.lower().endswith(WORKBOOKS)


class NoTable(ValueError):
    """There is no such table; message, remedy and the id of the rule that says so."""

    def __init__(
        self, message: str, remedy: str, rule: str = "document.reference-unresolved"
    ) -> None:
        super().__init__(message)
        self.message, self.remedy, self.rule = message, remedy, rule


TableSource = Callable[[str], TableFile]
"""Gives the table of a name, as written in a sequence; raises `NoTable`."""


def open_table(
    name: str, beside: FilePath, root: FilePath, shown: Callable[[FilePath], str]
) -> TableFile:
    """Read a table that lies beside a sequence or under the lab's root.

    Parameters
    ----------
    name : str
        As written: a file's name, with folders below if need be.
    beside : pathlib.Path
        Folder of the sequence.
    root : pathlib.Path
        The lab's folder.
    shown : callable
        Gives the path of a file as it is shown.

    Raises
    ------
    NoTable
        When it leads out of the lab's folder, is not there, is no table or is too large.
    """
    steps = name.split("/")
    if not all(_STEP.match(step) and not step.endswith((".", " ")) for step in steps):
        raise NoTable(
            f"table '{visible(name[:80])}': a table is named by a plain file name, with folders "
            "below the lab's at most",
            "put the table beside the sequence and write its name",
        )
    if not name.lower().endswith(SUFFIXES):
        old = name.lower().endswith((".xls", ".xlsm", ".ods"))
        raise NoTable(
            f"table '{visible(name[:80])}': this is no kind of table that is read here",
            f"{'save it' if old else 'name a file'} as {' or '.join(SUFFIXES)}",
            "document.word-not-known",
        )
    for folder in dict.fromkeys([beside, root]):
        file = folder.joinpath(*steps)
        if not is_file(file):
            continue
        if leaves(file, root):
            raise NoTable(
                f"table '{visible(name)}' is a link that leaves the lab folder",
                "put the table itself beside the sequence",
            )
        return _read(file, shown(file), name)
    folders = [f.joinpath(*steps[:-1]) for f in dict.fromkeys([beside, root])]
    near = nearest(steps[-1], _names(folders), limit=4, count=1)
    raise NoTable(
        f"there is no table '{visible(name)}' beside the document or in the lab's folder",
        f"did you mean '{visible(near[0][0])}'?"
        if near
        else "put it beside the document that names it",
    )


def _names(folders: list[FilePath]) -> list[str]:
    names = {name for folder in folders for name in names_in(folder)}
    return sorted(name for name in names if name.lower().endswith(SUFFIXES))


def _read(file: FilePath, path: str, name: str) -> TableFile:
    try:
        data = bytes_of(os.fspath(file), LIMITS.size + 1)
    except CannotOpen as error:
        raise NoTable(
            f"table '{visible(name)}' cannot be opened: {error}",
            "check who may read it",
            "document.unreadable",
        ) from None
    if len(data) > LIMITS.size:
        raise NoTable(
            f"table '{visible(name)}' has more than {LIMITS.size} bytes; the limit is that",
            "divide the table",
            "document.too-large",
        )
    return TableFile(path, data, hashlib.sha256(data).hexdigest())
