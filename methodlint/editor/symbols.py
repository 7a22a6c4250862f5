"""The outline of a document: its keys and the items of its lists."""

from __future__ import annotations

from lsprotocol import types

from methodlint.documents.text.nodes import Mapping, Node, Scalar, children
from methodlint.documents.text.places import Place
from methodlint.documents.text.reader import Read
from methodlint.documents.text.visible import visible
from methodlint.editor.positions import TextLines

__all__ = ["symbols_of"]

_DEEPEST = 3
_LONGEST = 60
_NAMED_BY = ("name", "title", "sample", "part", "type", "kind", "time", "liquid", "line")


def symbols_of(read: Read, lines: TextLines) -> list[types.DocumentSymbol]:
    """Outline of a document, three levels deep; empty where there is no tree."""
    return _inside(read.root, lines, 1) if read.root is not None else []


def _inside(node: Node, lines: TextLines, depth: int) -> list[types.DocumentSymbol]:
    found = []
    for step, below in children(node):
        key = node.key_places.get(str(step)) if isinstance(node, Mapping) else None
        if below.place.file or (key is not None and key.file):
            continue  # a cell of a table
        chosen = lines.range_of(key or _first_line(below.place))
        whole = lines.range_of(below.place)
        whole = types.Range(min(whole.start, chosen.start), max(whole.end, chosen.end))
        deeper = _inside(below, lines, depth + 1) if depth < _DEEPEST else []
        name, detail = _words(step, below)
        sort = types.SymbolKind.Key if isinstance(step, str) else types.SymbolKind.Object
        found.append(types.DocumentSymbol(name, sort, whole, chosen, detail, children=deeper))
    return found


def _words(step: str | int, node: Node) -> tuple[str, str | None]:
    text = visible(node.text)[:_LONGEST] if isinstance(node, Scalar) else None
    if isinstance(step, str):
        return visible(step)[:_LONGEST] or "(empty)", text
    if isinstance(node, Mapping):
        for key in _NAMED_BY:
            held = node.entries.get(key)
            if isinstance(held, Scalar) and held.text:
                return f"{step + 1} {visible(held.text)[:_LONGEST]}", None
    return f"{step + 1}", text


def _first_line(place: Place) -> Place:
    return Place(place.line, place.column, place.line, place.column + 1)
