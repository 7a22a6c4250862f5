"""Where something stands in a document: lines, columns and paths."""

from __future__ import annotations

import re
from array import array
from bisect import bisect_right
from typing import NamedTuple, TypeAlias

Path: TypeAlias = tuple[str | int, ...]

_PLAIN_STEP = re.compile(r"[A-Za-z_][A-Za-z0-9_-]*")
_BLANKS = frozenset(" \t\r\n")
_LINE_BREAK = re.compile(r"\r\n|\r|\n")
# Characters whose lines are looked up at a time.
_LOOK_AHEAD = 1 << 16


# A tuple: every value of a document makes one, and a frozen dataclass takes three times as long.
class Place(NamedTuple):
    """A span of a document's text.

    Lines and columns count from 1; a column counts Unicode code points, so an emoji or an accented
    letter is one column and a tab is one column. The end is the column just behind the last one.

    Attributes
    ----------
    line, column, end_line, end_column : int
        The span.
    file : str
        Path of the file as shown, where it is not the document itself but one that it takes
        values from, such as a table.
    cell : str
        The cell in words, such as ``cell C7`` or ``sheet 'May', cell C7``, if it is one.
    """

    line: int
    column: int
    end_line: int
    end_column: int
    file: str = ""
    cell: str = ""


START = Place(1, 1, 1, 1)


def path_text(path: Path) -> str:
    """Write a path the way people say it: ``programme[2].flow``.

    A key that is not a plain word is quoted, so that two different paths never read the same.
    """
    parts: list[str] = []
    for step in path:
        if isinstance(step, int):
            parts.append(f"[{step}]")
        elif _PLAIN_STEP.fullmatch(step):
            parts.append(f".{step}" if parts else step)
        else:
            parts.append(f"[{_quoted(step)}]")
    return "".join(parts)


def _quoted(step: str) -> str:
    from methodlint.documents.text.visible import visible

    return '"' + visible(step).replace('"', '\\"') + '"'


class LineTable:
    r"""Turn an index into a text into a line and a column.

    Only ``\n``, ``\r\n`` and ``\r`` end a line, as in every editor; U+0085 and U+2028 do not.
    """

    __slots__ = ("_known", "_starts", "_text")

    def __init__(self, text: str) -> None:
        self._text = text
        self._starts = array("Q", (0,))
        # Every line that starts at or before this index is in the table.
        self._known = 0

    def position(self, index: int) -> tuple[int, int]:
        """Return the 1-based line and column of the code point at `index`."""
        if index > self._known:
            self._look_on(index)
        line = bisect_right(self._starts, index)
        return line, index - self._starts[line - 1] + 1

    def of_one(self, index: int) -> Place:
        """Return the place of one character, counted: for a text that is not read any further."""
        text = self._text
        ends = text.count("\n", 0, index) + text.count("\r", 0, index)
        line = ends - text.count("\r\n", 0, index) + 1
        column = index - max(text.rfind("\n", 0, index), text.rfind("\r", 0, index))
        return Place(line, column, line, column + 1)

    def _look_on(self, index: int) -> None:
        """Find the lines on to `index` and well behind it: a text may be refused at its start."""
        text = self._text
        until = min(len(text), index + _LOOK_AHEAD)
        if text[until - 1 : until] == "\r":
            until += text[until : until + 1] == "\n"
        self._starts.extend(m.end() for m in _LINE_BREAK.finditer(text, self._known, until))
        self._known = until

    def place(self, start: int, end: int) -> Place:
        """Return the place of ``text[start:end]``, trailing blanks and line ends left out."""
        text = self._text
        end = min(end, len(text))
        while end > start and text[end - 1] in _BLANKS:
            end -= 1
        if end > self._known:
            self._look_on(end)
        starts = self._starts
        line = bisect_right(starts, start)
        line_start = starts[line - 1]
        if line == len(starts) or end < starts[line]:
            return Place(line, start - line_start + 1, line, end - line_start + 1)
        end_line = bisect_right(starts, end)
        return Place(line, start - line_start + 1, end_line, end - starts[end_line - 1] + 1)
