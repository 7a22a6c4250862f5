"""Changes to a document's text that leave every other character as it was.

Values are exchanged in place, by the places that the reader knows; what does not belong to the
new document is commented out, not deleted, save inside of braces and brackets; the reason of every
change stands behind its line. A writer that builds the text anew would also move blanks, quotes
and line ends. A document within braces has its reasons in lines of their own above it.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field

from methodlint.documents.text.nodes import Mapping, Scalar, SequenceNode
from methodlint.documents.text.places import Path, Place, path_text
from methodlint.documents.text.reader import Read
from methodlint.documents.text.visible import visible

__all__ = ["TextEdits", "as_scalar"]

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 ._+/()%-]*\Z")
_NOT_PLAIN = {"true", "false", "null", "yes", "no", "on", "off", "y", "n"}
_OWN_NOTE = re.compile(r"  # (?:derived|limited by [^#]*?): [^\r\n]*")
_OWN_LINE = re.compile(r"# [^ ]+: (?:derived|limited by [^#]*?): [^\r\n]*")
_LINES = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+\Z")


def as_scalar(text: str) -> str:
    """Write a name so that YAML reads it as that name; hidden characters as escapes."""
    if _PLAIN.match(text) and text.lower() not in _NOT_PLAIN and not text.endswith(" "):
        return text
    return visible(json.dumps(text, ensure_ascii=False))


def _within(inner: Place, outer: Place) -> bool:
    """Whether a span begins behind the beginning of another one and ends no later."""
    begins = (outer.line, outer.column) < (inner.line, inner.column)
    return begins and (inner.end_line, inner.end_column) <= (outer.end_line, outer.end_column)


@dataclass
class TextEdits:
    """Edits of one document; apply them with `text`.

    Attributes
    ----------
    read
        The document as read.
    """

    read: Read
    _spans: list[tuple[Place, str]] = field(default_factory=list)
    _taken: list[Place] = field(default_factory=list)
    _notes: dict[int, list[str]] = field(default_factory=dict)
    _behind: dict[int, list[str]] = field(default_factory=dict)
    _before: dict[int, list[str]] = field(default_factory=dict)
    _out: dict[int, str] = field(default_factory=dict)
    _inside: dict[tuple[int, int], list[str]] = field(default_factory=dict)

    # What is there -------------------------------------------------------------------------

    def has(self, path: Path) -> bool:
        """Whether a value is written down at a path."""
        return self.read.node(path) is not None

    def _own(self, path: Path) -> bool:
        """Whether a value stands inside its parent, not in an anchor somewhere else."""
        parent, node = self.read.node(path[:-1]), self.read.node(path)
        if parent is None or node is None:
            return False
        outer, inner = parent.place, node.place
        begins = (outer.line, outer.column) <= (inner.line, inner.column)
        return begins and (inner.end_line, inner.end_column) <= (outer.end_line, outer.end_column)

    # Edits ---------------------------------------------------------------------------------

    def set(self, path: Path, text: str, note: str = "") -> None:
        """Exchange a value, or add its key where there is none."""
        node = self.read.node(path)
        if isinstance(node, Mapping) and "value" in node.entries:
            path = (*path, "value")
            node = node.entries["value"]
        if node is None or not self._own(path):
            self.add(path, text, note)
            return
        place = node.place
        if isinstance(node, Scalar) or place.line == place.end_line:
            self._spans.append((place, text))
            self._note_of(path, place.end_line, note)
            return
        first = node.items[0].place if isinstance(node, SequenceNode) and node.items else None
        if first is not None and not self._is_flow(node) and first.line == first.end_line:
            # A list in lines of its own keeps its first line for what remains.
            self._spans.append((first, text.strip("[]")))
            self._note_of(path, first.line, note)
            for line in range(first.line + 1, place.end_line + 1):
                self._out[line] = "not carried over"
            return
        self._spans.append((place, text))
        self._note_of(path, place.end_line, note)

    def add(self, path: Path, text: str, note: str = "") -> None:
        """Add a key to a mapping that is there."""
        parent = self.read.node(path[:-1])
        key = path[-1]
        if not isinstance(parent, Mapping) or not isinstance(key, str):
            raise KeyError(path)
        place = parent.place
        if self._is_flow(parent):
            closing = self._lines()[place.end_line - 1][: place.end_column - 2]
            if parent.key_places and not closing.strip():
                # Whether a comma ends the line before, nobody has to know here.
                self._spans.append((self._first_key(parent), f"{key}: {text}, "))
            else:
                at = (place.end_line, place.end_column - 1)
                self._inside.setdefault(at, []).append(f"{key}: {text}")
            self._note_of(path, place.end_line, note)
            return
        indent = " " * (min(p.column for p in parent.key_places.values()) - 1)
        said = f"  # {note}" if note else ""
        self._behind.setdefault(place.end_line, []).append(f"{indent}{key}: {text}{said}")

    def add_behind(self, key: str, lines: list[str]) -> None:
        """Put lines behind a top-level key; in a document within braces, entries before it."""
        node = self.read.node((key,))
        if self._in_braces:
            at = self._beginning(self.read.place((key,), key=True))
            self._spans.append((at, "".join(f"{line}, " for line in lines)))
            return
        line = node.place.end_line if node is not None else len(self._lines())
        self._behind.setdefault(line, []).extend(lines)

    def insert_item(self, path: Path, text: str) -> None:
        """Put a new item in front of an item of a list."""
        node, parent = self.read.node(path), self.read.node(path[:-1])
        assert node is not None
        assert parent is not None
        if self._is_flow(parent):
            place = node.place
            self._spans.append(
                (Place(place.line, place.column, place.line, place.column), f"{text}, ")
            )
            return
        line = self._lines()[node.place.line - 1]
        lead = line[: len(line) - len(line.lstrip())]
        self._before.setdefault(node.place.line, []).append(f"{lead}- {text}")

    def comment_out(self, path: Path, why: str) -> None:
        """Turn a key and its value, or an item of a list, into comments; within braces, take it out."""
        node, parent = self.read.node(path), self.read.node(path[:-1])
        assert node is not None
        if isinstance(parent, (Mapping, SequenceNode)) and self._is_flow(parent):
            begins, ends = self._entry(parent, path[-1])
            place = Place(begins.line, begins.column, ends.line, ends.column)
            self._taken.append(place)
            self._note_of(path, begins.line, f"derived: {why}" if self._in_braces else why)
            return
        first = self.read.place(path, key=True).line
        for line in range(first, node.place.end_line + 1):
            self._out[line] = why if line == first else ""

    def _entry(self, parent: Mapping | SequenceNode, step: str | int) -> tuple[Place, Place]:
        """From where an entry of a flow collection begins to where the next one does, or the end."""
        if isinstance(parent, Mapping):
            starts = list(parent.key_places.values())
            number = list(parent.key_places).index(str(step))
        else:
            starts = [item.place for item in parent.items]
            number = int(step)
        if number + 1 < len(starts):
            return starts[number], starts[number + 1]
        end = parent.place
        # A comma before the closing brace is sound YAML.
        last = Place(end.end_line, end.end_column - 1, end.end_line, end.end_column - 1)
        return starts[number], last

    @staticmethod
    def _beginning(place: Place) -> Place:
        return Place(place.line, place.column, place.line, place.column)

    def _first_key(self, parent: Mapping) -> Place:
        return self._beginning(min(parent.key_places.values(), key=lambda p: (p.line, p.column)))

    @property
    def _in_braces(self) -> bool:
        return self.read.root is not None and self._is_flow(self.read.root)

    def _note_of(self, path: Path, line: int, text: str) -> None:
        """Say why a value changed: behind its line, or by its name above a document in braces.

        There a line may end within a value, where a comment would cut it.
        """
        if not self._in_braces:
            self.note(line, text)
        elif text and self.read.root is not None:
            said = f"# {path_text(path)}: {text}"
            above = self._before.setdefault(self.read.root.place.line, [])
            if said not in above:
                above.append(said)

    def note(self, line: int, text: str) -> None:
        """Say something behind a line, once."""
        if text and text not in self._notes.setdefault(line, []):
            self._notes[line].append(text)

    # The result ----------------------------------------------------------------------------

    def text(self) -> str:
        """The whole document with all edits."""
        lines = self._lines()
        # Reasons of a transfer before this one speak of other systems.
        made_before = self.has(("transfer",))
        ending = next((m.group() for line in lines if (m := re.search(r"\r\n|\r|\n", line))), "\n")
        gone: dict[int, int] = {}
        for place, new in sorted(self._all_spans(), key=lambda item: item[0], reverse=True):
            self._splice(lines, place, new)
            gone |= dict.fromkeys(range(place.line + 1, place.end_line + 1), place.line)
        self._follow(gone)
        result = []
        for number, line in enumerate(lines, 1):
            if number in gone or (made_before and _OWN_LINE.fullmatch(line.rstrip("\r\n"))):
                continue
            bare = line.rstrip("\r\n")
            tail = line[len(bare) :]
            result += [f"{text}{ending}" for text in self._before.get(number, ())]
            if number in self._out:
                why = f"{self._out[number]}: " if self._out[number] else ""
                bare = f"# {why}{bare}"
            elif made_before:
                bare = _OWN_NOTE.sub("", bare)
            if number not in self._out and self._notes.get(number):
                bare = f"{bare.rstrip()}  # {'; '.join(self._notes[number])}"
            behind = self._behind.get(number, [])
            result.append(bare + (tail or (ending if behind else "")))
            result += [f"{text}{ending}" for text in behind]
        return "".join(result)

    def _follow(self, gone: dict[int, int]) -> None:
        """Let what stands beside a line go with it into the line that it has become part of."""
        for number in sorted(gone, reverse=True):
            for beside in (self._notes, self._before, self._behind):
                moved = beside.pop(number, [])
                if moved:
                    beside.setdefault(gone[number], []).extend(moved)

    def _lines(self) -> list[str]:
        text = self.read.data.decode("utf-8-sig")
        return _LINES.findall(text) or [""]

    def _is_flow(self, node: Mapping | SequenceNode | Scalar) -> bool:
        line = self._lines()[node.place.line - 1]
        return line[node.place.column - 1 : node.place.column] in ("{", "[")

    def _all_spans(self) -> list[tuple[Place, str]]:
        spans = list(self._spans)
        for (line, column), texts in self._inside.items():
            before = self._lines()[line - 1][: column - 1].rstrip()
            lead = "" if before.endswith(("{", ",")) else ", "
            kept = column - 1 - len(before)
            place = Place(line, column - kept, line, column)
            spans.append((place, lead + ", ".join(texts) + " " * kept))
        # What changes inside of an entry that is taken out goes with it.
        kept_spans = [span for span in spans if not any(_within(span[0], t) for t in self._taken)]
        return [*kept_spans, *((place, "") for place in self._taken)]

    @staticmethod
    def _splice(lines: list[str], place: Place, new: str) -> None:
        head = lines[place.line - 1][: place.column - 1]
        tail = lines[place.end_line - 1][place.end_column - 1 :]
        lines[place.line - 1] = head + new + tail
        for number in range(place.line, place.end_line):
            lines[number] = ""
