"""Put finished nodes into the mapping or list that is open: keys, duplicates, merges, problems."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from methodlint.documents.text.keys import key_trouble
from methodlint.documents.text.limits import Limits
from methodlint.documents.text.nodes import Mapping, Node, Scalar, SequenceNode
from methodlint.documents.text.places import LineTable, Path, Place
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.visible import excerpt

UNREADABLE = "document.unreadable"
TOO_LARGE = "document.too-large"
TYPE_TRAP = "document.type-trap"
_MERGE = "<<"

# Rule, message and remedy of a problem whose place is known elsewhere.
Words: TypeAlias = tuple[str, str, str]


class TextRefused(Exception):
    """The document cannot be read any further."""

    def __init__(self, rule: str, place: Place, message: str, remedy: str) -> None:
        super().__init__(message)
        self.problem = Problem(rule, "fault", (), place, message, remedy)


def too_large(what: str, limit: int, place: Place) -> TextRefused:
    """Say that a limit is reached, what it is, and how to keep to it."""
    return TextRefused(
        TOO_LARGE,
        place,
        f"more than {limit} {what}; the limit is {limit}",
        "split the document, or move rows into a table that it refers to",
    )


@dataclass(slots=True)
class Open:
    """A mapping or list whose end is still to come."""

    node: Mapping | SequenceNode
    start: int
    anchor: str | None
    end: int
    size: int = 1
    height: int = 1
    # Of a mapping: the key whose value comes next, and what becomes of that value.
    key: str | None = None
    value_is: str = "kept"
    merged: Mapping | None = None


class NodeAssembly:
    """The part of a tree that is finished, and the stack of what is open.

    Attributes
    ----------
    root : Node or None
        The finished tree.
    problems : list of Problem
        In the order found.
    unusable : dict
        ``(id of the parent, step)`` -> problem, for every child that cannot be used.
    """

    def __init__(self, lines: LineTable, limits: Limits) -> None:
        self.root: Node | None = None
        self.problems: list[Problem] = []
        self.unusable: dict[tuple[int, str | int], Problem] = {}
        self._lines = lines
        self._limits = limits
        self._stack: list[Open] = []
        self._with_merge: set[int] = set()
        # Nodes outside the tree stay alive, since `unusable` knows parents by their id.
        self._kept: list[Node] = []

    def add(
        self,
        node: Node,
        size: int,
        height: int,
        end: int,
        trap: Words | None = None,
        alias: Place | None = None,
    ) -> None:
        """Hand a finished node to its parent.

        Parameters
        ----------
        node : Node
            The node.
        size, height : int
            Its nodes and levels, aliases expanded.
        end : int
            Index behind its last character.
        trap : Words, optional
            Why it cannot be used.
        alias : Place, optional
            Where the alias stands that it came through.
        """
        if not self._stack:
            self.root = node
            if trap is not None:
                raise TextRefused(trap[0], node.place, trap[1], trap[2])
            return
        parent = self._stack[-1]
        parent.size += size
        if height >= parent.height:
            parent.height = height + 1
        parent.end = end
        inside = parent.node
        if isinstance(inside, SequenceNode):
            if trap is not None:
                self._break(inside, len(inside.items), node.place, trap)
            inside.items.append(node)
        elif parent.key is None:
            self._key(parent, inside, node, trap, alias)
        else:
            self._value(parent, inside, node, trap, alias)

    def _key(
        self,
        parent: Open,
        mapping: Mapping,
        node: Node,
        trap: Words | None,
        alias: Place | None,
    ) -> None:
        place = alias or node.place
        parent.value_is = "kept"
        if not isinstance(node, Scalar) or alias is not None:
            trap = UNREADABLE, "a key has to be a word", "write a word before the colon"
            parent.key = key = f"({len(mapping.key_places)})"
            self._kept.append(node)
        elif node.text == _MERGE and not node.quoted:
            parent.key, parent.value_is = _MERGE, "merged"
            return
        else:
            parent.key = key = node.text
            trap = trap or _key_trap(node)
        first = mapping.key_places.get(key)
        if first is not None:
            parent.value_is = "dropped"
            message = f'the key "{excerpt(key)}" is a duplicate key, first at line {first.line}'
            words = "document.duplicate-key-or-id", message, "keep one of the two"
            self._break(mapping, key, place, words, also=(first,))
            return
        mapping.key_places[key] = place
        if trap is not None:
            self._break(mapping, key, place, trap)

    def _value(
        self,
        parent: Open,
        mapping: Mapping,
        node: Node,
        trap: Words | None,
        alias: Place | None,
    ) -> None:
        key = parent.key
        assert key is not None
        if parent.value_is == "kept":
            mapping.entries[key] = node
        else:
            self._kept.append(node)
        if parent.value_is == "merged":
            self._check_merge(parent, node, alias)
        elif trap is not None:
            self._break(mapping, key, node.place, trap)
        parent.key = None

    def _check_merge(self, parent: Open, node: Node, alias: Place | None) -> None:
        if alias is None or not isinstance(node, Mapping):
            message = "a merge (<<) takes one anchored mapping and nothing else"
        elif id(node) in self._with_merge:
            message = "the mapping merged here (<<) merges another one"
        elif parent.merged is not None:
            message = "a mapping merges (<<) twice"
        else:
            parent.merged = node
            self._with_merge.add(id(parent.node))
            return
        remedy = "write the keys out, or one plain merge of a mapping above"
        raise TextRefused(UNREADABLE, alias or node.place, message, remedy)

    def merge(self, into: Mapping, source: Mapping) -> None:
        """Add the keys of `source` that `into` does not set itself; their places stay."""
        for key, place in source.key_places.items():
            if key in into.key_places:
                continue
            into.key_places[key] = place
            if key in source.entries:
                into.entries[key] = source.entries[key]
            problem = self.unusable.get((id(source), key))
            if problem is not None:
                self.unusable[id(into), key] = problem

    def path(self) -> Path:
        """Return the path to the value that is being read."""
        steps: list[str | int] = []
        for opened in self._stack:
            if isinstance(opened.node, SequenceNode):
                steps.append(len(opened.node.items))
            elif opened.key is not None:
                steps.append(opened.key)
        return tuple(steps)

    def _break(
        self,
        parent: Node,
        step: str | int,
        place: Place,
        words: Words,
        also: tuple[Place, ...] = (),
    ) -> None:
        rule, message, remedy = words
        most = self._limits.problems
        if len(self.problems) >= most:
            message = f"more than {most} problems in one document; the limit is {most}"
            raise TextRefused(TOO_LARGE, place, message, "put those above right first")
        problem = Problem(rule, "fault", self.path(), place, message, remedy, also)
        self.problems.append(problem)
        self.unusable.setdefault((id(parent), step), problem)


def _key_trap(node: Scalar) -> Words | None:
    if isinstance(node.value, str):
        trouble = key_trouble(node.text)
        return None if trouble is None else ("document.hidden-character", *trouble)
    if not node.text:
        return TYPE_TRAP, "a key is missing before the colon", "write a word"
    shown = excerpt(node.text)
    kind = "no value"
    if node.value is not None:
        kind = "a flag" if isinstance(node.value, bool) else "a number"
    return (
        TYPE_TRAP,
        f"the key {shown} is read as {kind}, not as a word",
        f'write "{shown}" in quotation marks',
    )
