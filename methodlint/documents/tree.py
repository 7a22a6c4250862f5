"""Turn the parser's events into a tree with places, the limits tested on the way."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, TypeAlias

from ruamel.yaml.events import (
    AliasEvent,
    DocumentEndEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from methodlint.documents.keys import key_trouble
from methodlint.documents.limits import Limits
from methodlint.documents.nodes import Mapping, Node, Scalar, Sequence
from methodlint.documents.places import LineTable, Path, Place
from methodlint.documents.problems import Problem
from methodlint.documents.scalars import resolve, unusable
from methodlint.documents.visible import excerpt

UNREADABLE = "document.unreadable"
TOO_LARGE = "document.too-large"
_CORE = "tag:yaml.org,2002:"
_PROPERTIES = re.compile(r"(?:[&!][^\s,\[\]{}]*\s+)+")


class Refused(Exception):
    """The document cannot be read any further."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.message)
        self.problem = problem


@dataclass(slots=True)
class _Open:
    """A mapping or list whose end is still to come."""

    node: Mapping | Sequence
    start: int
    anchor: str | None
    size: int = 1
    height: int = 1
    end: int = 0
    # Of a mapping: the key whose value comes next, and what becomes of that value.
    key: str | None = None
    value_is: str = "kept"
    merged: Mapping | None = None


@dataclass(slots=True)
class _Anchored:
    node: Node
    size: int
    height: int


_MERGE = "<<"

# Rule, message and remedy of a problem whose place is known elsewhere.
Words: TypeAlias = tuple[str, str, str]


class TreeBuilder:
    """Collects events into nodes.

    Attributes
    ----------
    root : Node or None
        The finished tree.
    problems : list of Problem
        In the order found.
    unusable : dict
        ``(id of the parent, step)`` -> problem, for every child that cannot be used.
    events : int
        Number of events taken from the parser.
    """

    def __init__(self, text: str, lines: LineTable, limits: Limits) -> None:
        self.root: Node | None = None
        self.problems: list[Problem] = []
        self.unusable: dict[tuple[int, str | int], Problem] = {}
        self.events = 0
        self._text = text
        self._lines = lines
        self._limits = limits
        self._stack: list[_Open] = []
        self._anchors: dict[str, _Anchored] = {}
        self._pending_anchors: set[str] = set()
        self._aliases = 0
        self._nodes = 0
        self._with_merge: set[int] = set()
        # Nodes outside the tree stay alive, since `unusable` knows parents by their id.
        self._kept: list[Node] = []

    def build(self, parser: Any) -> None:
        """Take all events.

        Raises
        ------
        Refused
            When a limit is reached, or the document is of a form that is not read.
        ruamel.yaml.error.YAMLError
            When the text is no YAML.
        """
        handlers = {
            ScalarEvent: self._scalar,
            MappingStartEvent: self._open,
            SequenceStartEvent: self._open,
            MappingEndEvent: self._close,
            SequenceEndEvent: self._close,
            AliasEvent: self._alias,
            DocumentStartEvent: self._document,
        }
        documents = 0
        while True:
            event = parser.get_event()
            self.events += 1
            kind = type(event)
            if kind is StreamEndEvent:
                return
            if kind is DocumentEndEvent:
                documents += 1
            elif kind is DocumentStartEvent and documents:
                raise Refused(
                    self._problem(
                        UNREADABLE,
                        self._lines.place(event.start_mark.index, event.end_mark.index),
                        "a second document starts here; one file holds one document",
                        "Move it into a file of its own.",
                    )
                )
            handler = handlers.get(kind)
            if handler is not None:
                handler(event)

    # Events

    def _document(self, event: Any) -> None:
        if event.tags or event.version not in (None, (1, 2)):
            raise Refused(
                self._problem(
                    UNREADABLE,
                    self._lines.place(event.start_mark.index, event.start_mark.index + 1),
                    "a directive other than %YAML 1.2 stands above the document",
                    "Take the line that starts with % out.",
                )
            )

    def _scalar(self, event: Any) -> None:
        text: str = event.value
        start, end = event.start_mark.index, event.end_mark.index
        quoted = bool(event.style) or bool(event.tag)
        if event.anchor or event.tag:
            start = self._after_properties(start, end)
        place = self._lines.place(start, end)
        node = Scalar(text if quoted else resolve(text), text, quoted, place)
        self._count(1, 0, place)
        trap: Words | None = None
        if len(text) > 16384 and len(text.encode()) > self._limits.scalar:
            trap = (
                TOO_LARGE,
                f"a value of {len(text.encode())} bytes; the limit is {self._limits.scalar}",
                "Shorten it.",
            )
            node.value = node.text = ""
        elif event.tag:
            trap = self._tagged(node, event.tag)
        elif not quoted:
            found = unusable(text)
            if found is not None:
                trap = found.rule, found.message, found.remedy
        self._add(node, 1, 0, event.anchor, end, trap)

    def _tagged(self, node: Scalar, tag: str) -> Words | None:
        kind = tag.removeprefix(_CORE) if tag.startswith(_CORE) else tag
        if kind in ("str", "!"):
            return None
        value = resolve(node.text)
        if kind == "float" and type(value) is int:
            value = float(value)
        types = {"int": int, "float": float, "bool": bool, "null": type(None)}
        if kind in types and type(value) is types[kind]:
            node.value = value
            return None
        if kind in types:
            message = f'"{excerpt(node.text)}" is not what its tag says'
        else:
            message = f"the tag {excerpt(tag if kind == tag else '!!' + kind)} is not read"
        return UNREADABLE, message, "Take the tag out."

    def _open(self, event: Any) -> None:
        start = event.start_mark.index
        if event.anchor or event.tag:
            start = self._after_properties(start, len(self._text))
        place = self._lines.place(start, start + 1)
        if len(self._stack) >= self._limits.depth:
            raise Refused(self._too_large("levels inside each other", self._limits.depth, place))
        self._count(1, 0, place)
        mapping = type(event) is MappingStartEvent
        node: Mapping | Sequence = Mapping({}, {}, place) if mapping else Sequence([], place)
        if event.tag not in (None, "!", _CORE + ("map" if mapping else "seq")):
            tag = event.tag.replace(_CORE, "!!")
            raise Refused(
                self._problem(
                    UNREADABLE, place, f"the tag {excerpt(tag)} is not read", "Take the tag out."
                )
            )
        if event.anchor:
            self._pending_anchors.add(event.anchor)
        self._stack.append(_Open(node, start, event.anchor, end=start + 1))

    def _close(self, event: Any) -> None:
        opened = self._stack.pop()
        # A block ends without a character of its own: its last child's end is its end.
        end = event.end_mark.index
        if end <= event.start_mark.index:
            end = opened.end
        node = opened.node
        node.place = self._lines.place(opened.start, end)
        if opened.merged is not None and isinstance(node, Mapping):
            self._merge(node, opened.merged)
        if opened.anchor:
            self._pending_anchors.discard(opened.anchor)
        self._add(node, opened.size, opened.height, opened.anchor, end, None)

    def _alias(self, event: Any) -> None:
        start, end = event.start_mark.index, event.end_mark.index
        place = self._lines.place(start, end)
        self._aliases += 1
        if self._aliases > self._limits.aliases:
            raise Refused(self._too_large("uses of an anchor (*name)", self._limits.aliases, place))
        name = event.anchor
        target = self._anchors.get(name)
        if target is None or name in self._pending_anchors:
            why = (
                "refers to the value that it is part of"
                if name in self._pending_anchors
                else "refers to an anchor that is not set above"
            )
            trap = UNREADABLE, f"*{excerpt(name)} {why}", "Write the value out."
            self._count(1, 0, place)
            self._add(Scalar(None, "", True, place), 1, 0, None, end, trap)
            return
        self._count(target.size, target.height, place)
        self._add(target.node, target.size, target.height, None, end, None, alias=place)

    # Building

    def _add(
        self,
        node: Node,
        size: int,
        height: int,
        anchor: str | None,
        end: int,
        trap: Words | None,
        alias: Place | None = None,
    ) -> None:
        if anchor:
            self._anchors[anchor] = _Anchored(node, size, height)
        if not self._stack:
            self.root = node
            if trap is not None:
                raise Refused(self._problem(trap[0], node.place, trap[1], trap[2]))
            return
        parent = self._stack[-1]
        parent.size += size
        parent.height = max(parent.height, height + 1)
        parent.end = end
        inside = parent.node
        if isinstance(inside, Sequence):
            if trap is not None:
                self._break(inside, len(inside.items), node.place, trap)
            inside.items.append(node)
        elif parent.key is None:
            self._key(parent, inside, node, trap, alias)
        else:
            self._value(parent, inside, node, trap, alias)

    def _key(
        self,
        parent: _Open,
        mapping: Mapping,
        node: Node,
        trap: Words | None,
        alias: Place | None,
    ) -> None:
        place = alias or node.place
        parent.value_is = "kept"
        if not isinstance(node, Scalar) or alias is not None:
            trap = UNREADABLE, "a key has to be a word", "Write a word before the colon."
            parent.key = key = f"({len(mapping.key_places)})"
            self._kept.append(node)
        elif not node.quoted and node.text == _MERGE:
            parent.key, parent.value_is = _MERGE, "merged"
            return
        else:
            parent.key = key = node.text
            trap = trap or _key_trap(node)
        first = mapping.key_places.get(key)
        if first is not None:
            parent.value_is = "dropped"
            message = f'the key "{excerpt(key)}" stands twice, first at line {first.line}'
            trap = "document.duplicate-key-or-id", message, "Keep one of the two."
            self._break(mapping, key, place, trap, also=(first,))
            return
        mapping.key_places[key] = place
        if trap is not None:
            self._break(mapping, key, place, trap)

    def _value(
        self,
        parent: _Open,
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
        if trap is not None:
            self._break(mapping, key, node.place, trap)
        elif parent.value_is == "merged":
            self._check_merge(parent, node, alias)
        parent.key = None

    def _check_merge(self, parent: _Open, node: Node, alias: Place | None) -> None:
        place = alias or node.place
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
        remedy = "Write the keys out, or one plain merge of a mapping that stands above."
        raise Refused(self._problem(UNREADABLE, place, message, remedy))

    def _merge(self, into: Mapping, source: Mapping) -> None:
        for key, node in source.entries.items():
            if key in into.key_places:
                continue
            into.entries[key] = node
            into.key_places[key] = source.key_places[key]
            problem = self.unusable.get((id(source), key))
            if problem is not None:
                self.unusable[id(into), key] = problem

    # Problems

    def path(self) -> Path:
        """Return the path to the value that is being read."""
        steps: list[str | int] = []
        for opened in self._stack:
            if isinstance(opened.node, Sequence):
                steps.append(len(opened.node.items))
            elif opened.key is not None:
                steps.append(opened.key)
        return tuple(steps)

    def _count(self, nodes: int, height: int, place: Place) -> None:
        self._nodes += nodes
        if self._nodes > self._limits.nodes:
            raise Refused(self._too_large("keys and values", self._limits.nodes, place))
        if len(self._stack) + height > self._limits.depth:
            raise Refused(self._too_large("levels inside each other", self._limits.depth, place))

    def _too_large(self, what: str, limit: int, place: Place) -> Problem:
        return self._problem(
            TOO_LARGE,
            place,
            f"more than {limit} {what}; the limit is {limit}",
            "Split the document, or move rows into a table that it refers to.",
        )

    def _problem(
        self,
        rule: str,
        place: Place,
        message: str,
        remedy: str,
        also: tuple[Place, ...] = (),
    ) -> Problem:
        return Problem(rule, "fault", self.path(), place, message, remedy, also)

    def _break(
        self,
        parent: Node,
        step: str | int,
        place: Place,
        words: Words,
        also: tuple[Place, ...] = (),
    ) -> None:
        rule, message, remedy = words
        if len(self.problems) >= self._limits.problems:
            raise Refused(
                self._problem(
                    TOO_LARGE,
                    place,
                    f"more than {self._limits.problems} problems of this kind in one document",
                    "Put those above right first.",
                )
            )
        problem = self._problem(rule, place, message, remedy, also)
        self.problems.append(problem)
        self.unusable.setdefault((id(parent), step), problem)

    def _after_properties(self, start: int, end: int) -> int:
        match = _PROPERTIES.match(self._text, start, end)
        return match.end() if match is not None else start


def _key_trap(node: Scalar) -> Words | None:
    if isinstance(node.value, str):
        trouble = key_trouble(node.text)
        return None if trouble is None else ("document.hidden-character", *trouble)
    if not node.text:
        return "document.type-trap", "a key is missing before the colon", "Write a word."
    shown = excerpt(node.text)
    kind = "no value"
    if node.value is not None:
        kind = "a flag" if isinstance(node.value, bool) else "a number"
    return (
        "document.type-trap",
        f"the key {shown} is read as {kind}, not as a word",
        f'Write "{shown}" in quotation marks.',
    )
