"""Between places in a text and positions as an editor counts them."""

from __future__ import annotations

import re

from lsprotocol import types

from methodlint.documents.text.places import Place

__all__ = ["TextLines"]

_LINE_END = re.compile(r"\r\n|\r|\n")
_BOM = "\ufeff"


class TextLines:
    r"""Lines of a text that turn places into positions and back.

    The protocol ends lines at ``\n``, ``\r\n`` and ``\r``, as the reader of documents does, and at
    nothing else. A place counts code points, a position the units that were agreed on.

    Parameters
    ----------
    text
        The text as the editor holds it; the reader does not count a byte-order mark, editors do.
    encoding
        Unit of positions: `utf-8`, `utf-16` or `utf-32`.
    """

    def __init__(self, text: str, encoding: str) -> None:
        self.text = text
        self.lines = _LINE_END.split(text)
        self._encoding = encoding
        self._mark = 1 if text.startswith(_BOM) else 0

    def position(self, line: int, column: int) -> types.Position:
        """Position of a line and column, both counted from 1; cut to what is there."""
        if line > len(self.lines):
            return types.Position(len(self.lines) - 1, self._units(self.lines[-1]))
        begin = self._mark if line == 1 else 0
        text = self.lines[line - 1][: begin + column - 1]
        return types.Position(line - 1, self._units(text))

    def range_of(self, place: Place) -> types.Range:
        """Range of a place; one without an extent takes the character behind or before it."""
        end_column = place.end_column
        column = place.column
        if (place.line, column) == (place.end_line, end_column):
            end_column += 1
            width = len(self.lines[min(place.line, len(self.lines)) - 1])
            column = max(1, min(column, width))
        start = self.position(place.line, column)
        return types.Range(start, self.position(place.end_line, end_column))

    def column(self, position: types.Position) -> tuple[int, int]:
        """Line and column, both counted from 1, of a position."""
        if position.line >= len(self.lines):
            return len(self.lines), len(self.lines[-1]) + 1
        text = self.lines[position.line]
        left, count = position.character, 0
        for character in text:
            left -= self._units(character)
            if left < 0:
                break
            count += 1
        mark = self._mark if position.line == 0 else 0
        return position.line + 1, max(count - mark, 0) + 1

    def _units(self, text: str) -> int:
        if self._encoding == "utf-32" or text.isascii():
            return len(text)
        # Half a pair may come out of an editor that cuts between its units.
        if self._encoding == "utf-8":
            return len(text.encode("utf-8", "surrogatepass"))
        return len(text.encode("utf-16-le", "surrogatepass")) // 2
