"""Which value of a document stands at a position, and what its name refers to."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.library import LabFolder
from methodlint.documents.loading import Loaded
from methodlint.documents.not_found import NotFound
from methodlint.documents.tables.files import NoTable
from methodlint.documents.text.nodes import Mapping, Node, Scalar, children
from methodlint.documents.text.places import Path, Place
from methodlint.documents.text.reader import Read

__all__ = ["kind_referred_to", "path_at", "references_in", "referred_file"]

_REFERENCES = {
    ("method", "column"): "column",
    ("method", "equivalent_columns"): "column",
    ("method", "runs_on"): "instrument",
    ("method", "source_instrument"): "instrument",
    ("method", "transferred_from"): "method",
    ("method", "verification"): "sequence",
    ("sequence", "base"): "method",
    ("sequence", "column"): "column",
    ("sequence", "columns"): "column",
    ("sequence", "instrument"): "instrument",
    ("sequence", "method"): "method",
    ("sequence", "room"): "room",
    ("sequence", "solvents"): "solvents",
    ("sequence", "supply"): "supply",
    ("instrument", "fitted_columns"): "column",
    ("supply", "shared_with"): "instrument",
}
"""Kind of the card that a name refers to, by kind of document and key."""

_TABLES = ("table", "file")


def kind_referred_to(kind: str, key: str) -> str | None:
    """Kind of the card that a key of a document names; None for any other key."""
    return _REFERENCES.get((kind, key))


def references_in(folder: LabFolder, document: Loaded, shown: str) -> Iterator[Place]:
    """Yield places of a document whose names lead to a file, by its path as shown."""
    waiting: list[tuple[Path, Node]] = [((), document.read.root)] if document.read.root else []
    while waiting:
        path, node = waiting.pop()
        waiting += [((*path, step), below) for step, below in children(node)]
        if isinstance(node, Scalar) and referred_file(folder, document, path) == shown:
            yield node.place


def path_at(read: Read, line: int, column: int) -> Path | None:
    """Path of the innermost value whose text or key covers a place.

    Parameters
    ----------
    read
        The document as read.
    line, column
        Counted from 1, in code points.

    Returns
    -------
    tuple or None
        None where there is no value, as in a comment, or no tree.
    """
    node: Node | None = read.root
    path: Path = ()
    while node is not None:
        step = _step_at(node, line, column)
        if step is None:
            break
        path = (*path, step)
        node = read.node(path)
    return path or None


def _step_at(node: Node, line: int, column: int) -> str | int | None:
    for step, below in children(node):
        if not below.place.file and _covers(below.place, line, column):
            return step
        key = node.key_places.get(step) if isinstance(node, Mapping) else None  # type: ignore[arg-type]
        if key is not None and not key.file and _covers(key, line, column):
            return step
    return None


def _covers(place: Place, line: int, column: int) -> bool:
    start, end = (place.line, place.column), (place.end_line, place.end_column)
    return start <= (line, column) <= end


def referred_file(folder: LabFolder, document: Loaded, path: Path) -> str | None:
    """Path, as shown, of the card or table that the name at a path refers to.

    Returns
    -------
    str or None
        None if it is no reference, or one that leads nowhere.
    """
    node = document.read.node(path)
    words = [step for step in path if isinstance(step, str)]
    if not isinstance(node, Scalar) or not isinstance(node.value, str) or not words:
        return None
    if document.kind == "sequence" and "table" in words and words[-1] in _TABLES:
        try:
            return folder.table(node.value, folder.shown_from / document.path).path
        except NoTable:
            return None
    # Names under the lab's own words (fitted_columns) stand one step below the key.
    for word in (words[-1], *words[-2:-1]):
        kind = _REFERENCES.get((document.kind, word))
        if kind is not None:
            found = folder.find(kind, node.value, document)
            return None if isinstance(found, NotFound) else found.path
    return None
