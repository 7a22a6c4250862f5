"""Changes that were tried, written into the texts of the documents."""

from __future__ import annotations

from collections.abc import Sequence

from methodlint.checking.changed import changed_documents
from methodlint.documents.library import LabFolder
from methodlint.documents.loading import Loaded, load
from methodlint.documents.text.one_line import one_line
from methodlint.documents.text.places import Path
from methodlint.documents.text.reader import read_text
from methodlint.judging.finding import Candidate, Change
from methodlint.transfer.text_edits import TextEdits

__all__ = ["changed_texts"]


def changed_texts(candidate: Candidate, folder: LabFolder) -> dict[str, str] | None:
    """Write the changes of a candidate into the texts.

    Returns
    -------
    dict or None
        New texts by path as shown. None where a text cannot be written so that it reads as what
        was tried: a value that stands in a table, in an anchor, or was made by the tool.
    """
    wanted = changed_documents(candidate)
    if wanted is None:
        return None
    texts: dict[str, str] = {}
    for path, document in wanted.items():
        changes = [change for change in candidate.changes if change.at.document.path == path]
        original = changes[0].at.document
        if original.made_from or original.read.root is None:
            return None
        text = _written(original, changes)
        if text is None or not _reads_as(text, document, folder):
            return None
        texts[path] = text
    return texts


def _written(document: Loaded, changes: Sequence[Change]) -> str | None:
    edits = TextEdits(document.read)
    for change in changes:
        path = change.at.path
        if any(_stands_elsewhere(document, path[:n]) for n in range(len(path) + 1)):
            return None
        try:
            _write(edits, document, path, change)
        except (KeyError, IndexError, AssertionError):
            return None
    return edits.text()


def _stands_elsewhere(document: Loaded, path: Path) -> bool:
    node = document.read.node(path)
    return node is not None and bool(node.place.file)


def _write(edits: TextEdits, document: Loaded, path: Path, change: Change) -> None:
    value = change.value
    if change.insert:
        edits.insert_item(path, one_line(value))
        return
    if value is None and isinstance(path[-1], str):
        edits.comment_out(path, "taken out")
        return
    # What is not there yet is written with the first key that is missing.
    while len(path) > 1 and document.read.node(path[:-1]) is None:
        value = {path[-1]: value}
        path = path[:-1]
    edits.set(path, one_line(value))


def _reads_as(text: str, wanted: Loaded, folder: LabFolder) -> bool:
    """Whether a text holds exactly the values that were tried."""
    read = read_text(text.encode("utf-8", "surrogatepass"), wanted.path)
    file = folder.shown_from / wanted.path
    found = load(read, wanted.path, wanted.name, lambda name: folder.table(name, file))
    return found is not None and found.model == wanted.model
