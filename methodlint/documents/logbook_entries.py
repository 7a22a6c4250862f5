"""Entries of a logbook: written out, from a table beside it, or both."""

from __future__ import annotations

from dataclasses import replace

from methodlint.documents.blocks.pieces import CannotLayOut
from methodlint.documents.sequence_lines import LaidOut, table_rows
from methodlint.documents.tables.files import TableFile, TableSource
from methodlint.documents.tables.log_headers import ENTRIES
from methodlint.documents.text.nodes import Mapping, SequenceNode
from methodlint.documents.text.places import Path
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import Read

__all__ = ["entries_laid_out"]


def entries_laid_out(read: Read, tables: TableSource | None) -> LaidOut | None:
    """Put the entries of a logbook's table behind those that are written out.

    Parameters
    ----------
    read : Read
        A document of the kind logbook.
    tables : callable or None
        Gives the table that it names; None where there is no folder to look in.

    Returns
    -------
    LaidOut or None
        None if it names no table.
    """
    root = read.root
    if not isinstance(root, Mapping) or "table" not in root.entries or ("table",) in read.broken:
        return None
    opened: dict[str, TableFile] = {}
    place = root.key_places["table"]
    written = root.entries.get("entries")
    before = written.items if isinstance(written, SequenceNode) else []
    try:
        rows = table_rows(root.entries["table"], {}, tables, opened, ENTRIES)
    except CannotLayOut as reason:
        found = [reason.problem] if reason.problem else []
        return LaidOut(read, found, tuple(opened.values()))
    broken: dict[Path, Problem] = {
        ("entries", len(before) + n, key): problem for (n, key), problem in rows.broken.items()
    }
    new = Mapping(
        {**root.entries, "entries": SequenceNode([*before, *rows.lines], place)},
        {**root.key_places, "entries": root.key_places.get("entries", place)},
        root.place,
    )
    done = replace(read, root=new, broken={**read.broken, **broken})
    return LaidOut(done, rows.problems, tuple(opened.values()))
