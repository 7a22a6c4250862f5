"""Walk the values of a typed document with the path of each; only what is written is visited."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from methodlint.documents.memo import memoize_last
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.text.places import Path

# Most values hold nothing: for those no generator is made.
_LEAVES = frozenset({Quantity, str, float, int, bool, type(None)})


Parts = tuple[tuple[Path, BaseModel], ...]


@memoize_last
def parts(document: BaseModel) -> Parts:
    """Every mapping of a document that has fields of its own, outermost first, with its path."""
    return tuple(_parts(document, ()))


def _parts(value: Any, path: Path) -> Iterator[tuple[Path, BaseModel]]:
    if isinstance(value, BaseModel):
        yield path, value
        for name in value.model_fields_set:
            below = getattr(value, name)
            if type(below) not in _LEAVES:
                yield from _parts(below, (*path, name))
    elif isinstance(value, (list, tuple)):
        for index, item in enumerate(value):
            if type(item) not in _LEAVES:
                yield from _parts(item, (*path, index))


def quantities(model: BaseModel) -> Iterator[tuple[Path, BaseModel, Quantity]]:
    """Yield every quantity with its path and the mapping that holds it."""
    for path, part in parts(model):
        for name in part.model_fields_set:
            value = getattr(part, name)
            if isinstance(value, Quantity):
                yield (*path, name), part, value
            elif isinstance(value, dict):
                for key, item in value.items():
                    if isinstance(item, Quantity):
                        yield (*path, name, key), part, item
            elif isinstance(value, tuple):
                for index, item in enumerate(value):
                    if isinstance(item, Quantity):
                        yield (*path, name, index), part, item


def texts(data: Any, path: Path = ()) -> Iterator[tuple[Path, str]]:
    """Yield every text of plain data with its path."""
    if isinstance(data, str):
        yield path, data
    elif isinstance(data, dict):
        for key, value in data.items():
            if type(value) is str:
                yield (*path, key), value
            elif type(value) not in _LEAVES:
                yield from texts(value, (*path, key))
    elif isinstance(data, list):
        for index, item in enumerate(data):
            yield from texts(item, (*path, index))
