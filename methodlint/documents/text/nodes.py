"""The tree of a document: values that know where they stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

from methodlint.documents.text.places import Path, Place

ScalarValue: TypeAlias = str | int | float | bool | None


@dataclass(slots=True, eq=False)
class Scalar:
    """A single value.

    Attributes
    ----------
    value : str, int, float, bool or None
        What the YAML 1.2 core schema makes of the text.
    text : str
        The text as written, without quotation marks.
    quoted : bool
        True when quotation marks, a block or an explicit tag say what it is.
    place : Place
        Where it stands.
    """

    value: ScalarValue
    text: str
    quoted: bool
    place: Place


@dataclass(slots=True, eq=False)
class Mapping:
    """Keys and their values, in the order of the text; merged keys come last."""

    entries: dict[str, Node]
    key_places: dict[str, Place]
    place: Place


@dataclass(slots=True, eq=False)
class SequenceNode:
    """Values in order."""

    items: list[Node] = field(default_factory=list)
    place: Place = field(default_factory=lambda: Place(1, 1, 1, 1))


Node: TypeAlias = Scalar | Mapping | SequenceNode


def children(node: Node) -> Iterator[tuple[str | int, Node]]:
    """Yield the step to, and the node of, every direct child."""
    if isinstance(node, Mapping):
        yield from node.entries.items()
    elif isinstance(node, SequenceNode):
        yield from enumerate(node.items)


def child(node: Node, step: str | int) -> Node | None:
    """Return the child of `node` at `step`, or None when there is none."""
    if isinstance(node, Mapping) and isinstance(step, str):
        return node.entries.get(step)
    if isinstance(node, SequenceNode) and isinstance(step, int) and 0 <= step < len(node.items):
        return node.items[step]
    return None


def walk(node: Node, path: Path = ()) -> Iterator[tuple[Path, Node]]:
    """Yield every path and node of a tree, parents before children."""
    yield path, node
    for step, below in children(node):
        yield from walk(below, (*path, step))
