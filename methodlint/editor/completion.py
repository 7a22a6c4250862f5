"""What may be written at a place: keys, words, units, and names of cards and liquids.

A text that is being written is seldom a document yet. So the place is found by its indentation,
and what may stand there by the JSON Schema of the kind.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from methodlint.documents.json_schema import kind_schema
from methodlint.documents.library import LabFolder
from methodlint.documents.loading import KINDS
from methodlint.documents.quantities.unit_table import UNITS
from methodlint.editor.values import kind_referred_to
from methodlint.fluids.liquids.known import LIQUIDS

__all__ = ["Offer", "Spot", "offers_at", "spot_at"]

_KIND = re.compile(r"^kind:[ \t]*(\w+)", re.MULTILINE)
_KEY = re.compile(r"^(?P<indent> *(?:- +)*)(?P<key>[A-Za-z_][\w-]*):(?P<value>[ \t].*)?$")
_TYPED_KEY = re.compile(r"[A-Za-z_][\w-]*$")
_NUMBER = re.compile(r"[+-]?[0-9.]+(?:e[+-]?[0-9]+)? ")
_LIQUIDS = frozenset({"liquid", "diluent", "storage_liquid"})


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a text that is being written.

    Attributes
    ----------
    kind
        Of the document; empty if it does not say.
    keys
        That lead to the mapping.
    key
        Whose value is being written; empty where a key is.
    written
        What stands before the place, of the key or value.
    used
        Keys that the mapping has.
    """

    kind: str
    keys: tuple[str, ...]
    key: str
    written: str
    used: frozenset[str]


@dataclass(frozen=True, slots=True)
class Offer:
    """One text that may be written.

    Attributes
    ----------
    text
        The text.
    sort
        What it is.
    detail
        What it means; may be empty.
    replaces
        Number of characters before the place that it stands for.
    """

    text: str
    sort: Literal["key", "word", "unit", "name", "value"]
    detail: str = ""
    replaces: int = 0


def spot_at(lines: list[str], line: int, column: int) -> Spot | None:
    """Find out what is being written at a line and column, both counted from 1.

    Returns
    -------
    Spot or None
        None within a comment or a quoted text.
    """
    if line > len(lines):
        return None
    begin = _document_begins(lines, line)
    before = lines[line - 1][: column - 1]
    if re.search(r"(?:^|\s)#", before) or before.count('"') % 2:
        return None
    kind = _KIND.search("\n".join(_document(lines, begin)))
    indent = len(before) - len(before.lstrip(" "))
    body = before[indent:]
    while body.startswith("- "):
        step = len(body) - len(body[2:].lstrip(" "))
        indent, body = indent + step, body[step:]
    keys, used = _keys_above(lines, begin, line, indent)
    used |= _keys_below(lines, line, indent)
    brace = _open_brace(body)
    if brace is not None:
        outer = re.match(r"([A-Za-z_][\w-]*):", body)
        keys = (*keys, outer[1]) if outer is not None else keys
        inside = re.split(r",(?![^{]*\})", body[brace + 1 :])
        used = {part.partition(":")[0].strip() for part in inside[:-1]}
        body = inside[-1].lstrip(" ")
    key, colon, value = body.partition(":")
    known = kind[1] if kind is not None else ""
    if colon:
        value = value.lstrip(" ").removeprefix("[").rpartition(", ")[2]
        return Spot(known, keys, key.strip(), value, frozenset(used))
    return Spot(known, keys, "", body, frozenset(used))


def _document_begins(lines: list[str], line: int) -> int:
    return next((n for n in range(line - 1, 0, -1) if lines[n - 1].rstrip() == "---"), 0)


def _document(lines: list[str], begin: int) -> list[str]:
    end = next((n for n in range(begin, len(lines)) if lines[n].rstrip() == "---"), len(lines))
    return lines[begin:end]


def _keys_above(
    lines: list[str], begin: int, line: int, indent: int
) -> tuple[tuple[str, ...], set[str]]:
    """Keys that lead to a mapping by its indentation, and the mapping's own above the line."""
    keys: list[str] = []
    used: set[str] = set()
    level, own = indent, not lines[line - 1].lstrip(" ").startswith("- ")
    for text in reversed(lines[begin : line - 1]):
        found = _KEY.match(text)
        if found is None:
            continue
        at = len(found["indent"])
        if at == level and not keys and own:
            used.add(found["key"])
            own = "-" not in found["indent"]
        elif at < level and not (found["value"] or "").strip():
            keys.insert(0, found["key"])
            level = at
    return tuple(keys), used


def _keys_below(lines: list[str], line: int, indent: int) -> set[str]:
    """Keys of the same mapping below a line."""
    used: set[str] = set()
    for text in lines[line:]:
        found = _KEY.match(text)
        depth = len(text) - len(text.lstrip(" "))
        if text.rstrip() == "---" or (text.strip() and depth < indent):
            break
        if found is not None and found["indent"] == " " * indent:
            used.add(found["key"])
    return used


def _open_brace(body: str) -> int | None:
    """Index of the last brace that is not closed."""
    depth = 0
    for index in range(len(body) - 1, -1, -1):
        depth += (body[index] == "}") - (body[index] == "{")
        if depth < 0:
            return index
    return None


def offers_at(spot: Spot, folder: LabFolder | None) -> Iterator[Offer]:
    """Yield what may be written at a spot, in the order of the schema.

    Parameters
    ----------
    spot
        The spot.
    folder
        The lab folder whose cards may be named; None for none.
    """
    if not spot.keys and spot.key == "kind":
        yield from (Offer(kind, "word", replaces=len(spot.written)) for kind in KINDS)
        return
    if spot.kind not in KINDS:
        if not spot.keys and not spot.key and "kind" not in spot.used:
            yield Offer("kind: ", "key", "Which kind of document this is.", len(spot.written))
        return
    schema = _schema(spot.kind)
    for key in spot.keys:
        schema = _property(spot.kind, schema, key)
    if spot.key:
        yield from _values(spot, _raw_property(spot.kind, schema, spot.key), folder)
        return
    typed = _TYPED_KEY.search(spot.written)
    replaces = len(typed[0]) if typed is not None else 0
    for key, of in _properties(spot.kind, schema).items():
        if key not in spot.used:
            yield Offer(f"{key}: ", "key", str(of.get("description", "")), replaces)


@cache
def _schema(kind: str) -> dict[str, Any]:
    return kind_schema(kind)


def _forms(kind: str, schema: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """A schema, and what it refers to or offers in its place."""
    yield schema
    inner = [*schema.get("anyOf", ()), schema.get("items"), schema.get("additionalProperties")]
    if "$ref" in schema:
        inner.append(_schema(kind)["$defs"][schema["$ref"].rpartition("/")[2]])
    for one in inner:
        if isinstance(one, dict):
            yield from _forms(kind, one)


def _properties(kind: str, schema: dict[str, Any]) -> dict[str, Any]:
    """Keys of the mapping that a schema describes, itself or as an item of its list."""
    for form in _forms(kind, schema):
        if "properties" in form and "tolerance" not in form["properties"]:
            found: dict[str, Any] = form["properties"]
            return found
    return {}


def _raw_property(kind: str, schema: dict[str, Any], key: str) -> dict[str, Any]:
    found: dict[str, Any] = _properties(kind, schema).get(key, {})
    return found


def _property(kind: str, schema: dict[str, Any], key: str) -> dict[str, Any]:
    # A mapping under the lab's own words, such as plates, has no keys of ours.
    return _raw_property(kind, schema, key) or schema


def _values(spot: Spot, schema: dict[str, Any], folder: LabFolder | None) -> Iterator[Offer]:
    whole = len(spot.written)
    card = kind_referred_to(spot.kind, spot.key)
    if card is not None and folder is not None:
        yield from (Offer(name, "name", card, whole) for name in folder.names_of(card))
        return
    if spot.key in _LIQUIDS:
        yield from (Offer(name, "name", "liquid", whole) for name in LIQUIDS)
        return
    for form in _forms(spot.kind, schema):
        yield from (Offer(str(word), "word", "", whole) for word in form.get("enum", ()))
        if form.get("type") == "boolean":
            yield from (Offer(word, "word", "", whole) for word in ("true", "false"))
        name = form.get("$ref", "").rpartition("/quantity-")[2]
        if not name:
            continue
        number = _NUMBER.match(spot.written)
        if number is None:
            told = str(schema.get("description", ""))
            yield from (Offer(text, "value", told, whole) for text in schema.get("examples", ()))
            continue
        for dimension in name.split("-or-"):
            units = UNITS.get(dimension.replace("-", " "), {})
            yield from (Offer(unit, "unit", "", whole - len(number[0])) for unit in units)
