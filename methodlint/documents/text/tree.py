"""Turn the parser's events into a tree with places, the limits tested on the way.

The parser's own composer is not used: it recurses in C without a bound, so that many nested
brackets end the process.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Protocol

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

from methodlint.documents.text.assembly import (
    TOO_LARGE,
    UNREADABLE,
    NodeAssembly,
    Open,
    TextRefused,
    Words,
    too_large,
)
from methodlint.documents.text.early_limits import exceeds_limit_early
from methodlint.documents.text.limits import Limits
from methodlint.documents.text.nodes import Mapping, Node, Scalar, SequenceNode
from methodlint.documents.text.places import START, LineTable, Place
from methodlint.documents.text.scalars import resolve, unusable
from methodlint.documents.text.slips import Slip
from methodlint.documents.text.strict_yaml import (
    block_text_slip,
    comment_slip,
    cut_anchor_slip,
    key_mark_slip,
    line_slip,
)
from methodlint.documents.text.visible import excerpt

_CORE = "tag:yaml.org,2002:"
# Anchors and tags in front of a value, and comments between them and the value.
_PROPERTIES = re.compile(r"(?:[&!][^\s,\[\]{}]*\s+(?:#[^\r\n]*\s+)*)+")

_TAG = re.compile(r"(?:&\S*\s+(?:#[^\r\n]*\s+)*)?(?P<tag>!\S*)")


class Parser(Protocol):
    """What gives the events of a document one by one."""

    def get_event(self) -> Any:
        """Return the next event."""


@dataclass(slots=True)
class _Anchored:
    node: Node
    size: int
    height: int


class TreeBuilder(NodeAssembly):
    """Builds the tree of one document from events.

    Attributes
    ----------
    events : int
        Number of events taken from the parser.
    """

    def __init__(self, text: str, lines: LineTable, limits: Limits) -> None:
        super().__init__(lines, limits)
        self.events = 0
        self._text = text
        self._anchors: dict[str, _Anchored] = {}
        self._open_anchors: set[str] = set()
        self._aliases = 0
        self._anchored = 0
        self._nodes = 0
        # End of the event before; columns of the blocks that are open, 0 within brackets.
        self._before = 0
        self._columns: list[int] = []

    def build(self, parser: Parser) -> None:
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
            MappingStartEvent: self._start,
            SequenceStartEvent: self._start,
            MappingEndEvent: self._end,
            SequenceEndEvent: self._end,
            AliasEvent: self._alias,
            DocumentStartEvent: self._document,
        }
        ended = False
        while True:
            event = parser.get_event()
            self.events += 1
            kind = type(event)
            start = event.start_mark.index
            self._refuse(comment_slip(self._text, self._before, start))
            self._before = max(self._before, event.end_mark.index)
            if kind is StreamEndEvent:
                return
            if kind is DocumentEndEvent:
                ended = True
            elif kind is DocumentStartEvent and ended:
                place = self._lines.place(event.start_mark.index, event.end_mark.index)
                message = "a second document starts here; one file holds one document"
                raise TextRefused(UNREADABLE, place, message, "move it into a file of its own")
            handler = handlers.get(kind)
            if handler is not None:
                handler(event)

    def _document(self, event: Any) -> None:
        if event.tags or event.version not in (None, (1, 2)):
            start = event.start_mark.index
            message = "a directive other than %YAML 1.2 is written above the document"
            remedy = "take the line that starts with % out"
            raise TextRefused(UNREADABLE, self._lines.place(start, start + 1), message, remedy)

    def _scalar(self, event: Any) -> None:
        text: str = event.value
        start, end = event.start_mark.index, event.end_mark.index
        anchor, tag = event.anchor, event.tag
        quoted = bool(event.style or tag)
        if anchor or tag:
            self._count_anchor(event)
            start = self._behind_properties(start, end)
        self._look_at_layout(event, start, end)
        self._count(1, 0, start)
        place = self._lines.place(start, end)
        node = Scalar(text if quoted else resolve(text), text, quoted, place)
        trap: Words | None = None
        size = len(text)
        # A code point takes up to four bytes: short texts need no encoding to be known as short.
        if size * 4 > self._limits.scalar and (size := len(text.encode())) > self._limits.scalar:
            message = f"a value of {size} bytes; the limit is {self._limits.scalar}"
            trap = TOO_LARGE, message, "shorten it, or move it into a file of its own"
            node.value, node.text = None, excerpt(text)
        elif tag:
            trap = self._tagged(node, tag)
            if trap is not None:
                node.place = self._place_of_tag(event.start_mark.index)
        elif not quoted:
            found = unusable(text)
            if found is not None:
                trap = found.rule, found.message, found.remedy
        if anchor:
            self._anchors[anchor] = _Anchored(node, 1, 0)
        self.add(node, 1, 0, end, trap)

    def _tagged(self, node: Scalar, tag: str) -> Words | None:
        kind = tag.removeprefix(_CORE)
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
            message = f"the tag {_shown(tag)} is not read"
        remedy = "take the tag out, or put the whole value in quotation marks if it is a text"
        return UNREADABLE, message, remedy

    def _start(self, event: Any) -> None:
        start = event.start_mark.index
        if event.anchor or event.tag:
            self._count_anchor(event)
            start = self._behind_properties(start, len(self._text))
        self._count(1, 1, start)
        mapping = type(event) is MappingStartEvent
        within = bool(self._columns) and self._columns[-1] == 0
        if within:
            self._refuse(key_mark_slip(self._text, event.start_mark.index))
        in_brackets = within or event.flow_style
        self._columns.append(0 if in_brackets else self._lines.position(start)[1])
        if event.tag not in (None, "!", _CORE + ("map" if mapping else "seq")):
            # The tag may stand a line above what it is the tag of.
            place = self._place_of_tag(event.start_mark.index)
            message = f"the tag {_shown(event.tag)} is not read"
            raise TextRefused(UNREADABLE, place, message, "take the tag out")
        self._foresee(start, mapping=mapping, flow=event.flow_style)
        if event.anchor:
            self._open_anchors.add(event.anchor)
        # Its place is known when it ends.
        node: Mapping | SequenceNode = (
            Mapping({}, {}, START) if mapping else SequenceNode([], START)
        )
        self._stack.append(Open(node, start, event.anchor, start + 1))

    def _end(self, event: Any) -> None:
        opened = self._stack.pop()
        # A block ends without a character of its own: its last child's end is its end.
        end = event.end_mark.index
        if end <= event.start_mark.index:
            end = opened.end
        node = opened.node
        self._columns.pop()
        if event.end_mark.index > event.start_mark.index:
            self._look_at_lines(opened.start, end, brackets=True)
        node.place = self._lines.place(opened.start, end)
        if opened.merged is not None and isinstance(node, Mapping):
            self.merge(node, opened.merged)
        if opened.anchor:
            self._open_anchors.discard(opened.anchor)
            self._anchors[opened.anchor] = _Anchored(node, opened.size, opened.height)
        self.add(node, opened.size, opened.height, end)

    def _alias(self, event: Any) -> None:
        end = event.end_mark.index
        place = self._lines.place(event.start_mark.index, end)
        self._aliases += 1
        if self._aliases > self._limits.aliases:
            raise too_large("uses of an anchor (*name)", self._limits.aliases, place)
        name = event.anchor
        self._refuse(cut_anchor_slip(self._text, event.start_mark.index, name))
        target = self._anchors.get(name)
        if name in self._open_anchors or target is None:
            why = "refers to an anchor that is not set above"
            if name in self._open_anchors:
                why = "refers to the value that it is part of"
            self._count(1, 0, event.start_mark.index)
            trap = UNREADABLE, f"*{excerpt(name)} {why}", "write the value out"
            self.add(Scalar(None, "", True, place), 1, 0, end, trap)
            return
        self._count(target.size, target.height, event.start_mark.index)
        self.add(target.node, target.size, target.height, end, alias=place)

    def _count(self, nodes: int, height: int, start: int) -> None:
        limits = self._limits
        self._nodes += nodes
        if self._nodes > limits.nodes:
            place = self._lines.place(start, start + 1)
            raise too_large("keys and values", limits.nodes, place)
        if len(self._stack) + height > limits.depth:
            place = self._lines.place(start, start + 1)
            raise too_large("levels inside each other", limits.depth, place)

    def _foresee(self, start: int, *, mapping: bool, flow: bool) -> None:
        most = self._limits.nodes - self._nodes
        found = exceeds_limit_early(self._text, start, mapping=mapping, flow=flow, most=most)
        if found is not None:
            raise too_large("keys and values", self._limits.nodes, self._lines.of_one(found))

    def _look_at_layout(self, event: Any, start: int, end: int) -> None:
        """Refuse a value that another reader of YAML would refuse or read in another way."""
        if self._columns and self._columns[-1] == 0:
            self._refuse(key_mark_slip(self._text, event.start_mark.index))
        elif event.style in ("|", ">"):
            least = self._columns[-1] if self._columns else 0
            self._refuse(block_text_slip(self._text, start, least))
        elif event.style:
            self._look_at_lines(start, end, brackets=False)

    def _look_at_lines(self, start: int, end: int, *, brackets: bool) -> None:
        least = self._columns[-1] if self._columns else 0
        if least > 0:
            self._refuse(line_slip(self._text, start, end, least, brackets=brackets))

    def _refuse(self, slip: Slip | None) -> None:
        if slip is not None:
            place = self._lines.place(slip.index, slip.index + 1)
            raise TextRefused(UNREADABLE, place, slip.message, slip.remedy)

    def _count_anchor(self, event: Any) -> None:
        if event.anchor is not None:
            self._refuse(cut_anchor_slip(self._text, event.start_mark.index, event.anchor))
        self._anchored += event.anchor is not None
        if self._anchored > self._limits.anchors:
            start = event.start_mark.index
            place = self._lines.place(start, start + 1)
            raise too_large("anchors (&name)", self._limits.anchors, place)

    def _place_of_tag(self, start: int) -> Place:
        match = _TAG.match(self._text, start)
        assert match is not None
        return self._lines.place(match.start("tag"), match.end("tag"))

    def _behind_properties(self, start: int, end: int) -> int:
        match = _PROPERTIES.match(self._text, start, end)
        return match.end() if match is not None else start


def _shown(tag: str) -> str:
    return excerpt(tag.replace(_CORE, "!!"))
