"""Reads the cells of one sheet of a workbook: what is stored, and how it is shown."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable

from methodlint.documents.tables.grid import LIMITS, CellValue
from methodlint.documents.tables.workbook_parts import (
    Enough,
    NoWorkbook,
    Sheet,
    TextRuns,
    Workbook,
    too_large,
)

_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_NUMBER = re.compile(r"[+-]?(?:[0-9]+(\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_ISO_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}(T[0-9:.]{5,15}Z?)?")
_QUOTED_OR_COLOUR = re.compile(r'"[^"]*"|\[(?!hh?\]|mm?\]|ss?\])[^\]]*\]|\\.|_.', re.IGNORECASE)
_DATE_LETTERS = re.compile(r"[dmhys]", re.IGNORECASE)
_ELAPSED = re.compile(r"\[(?:h|hh|m|mm|s|ss)\]", re.IGNORECASE)
_LONGEST_NUMBER = 64
_LAST_ROW = 1_048_576
_LAST_DAY = 2_958_466
_TOP_BYTES = 1024 * 1024

NO_RESULT = "no result"
"""Stands for the result of a formula that the file does not store."""


class Stored:
    """One cell as stored.

    Attributes
    ----------
    column : int
        Counted from 1.
    value : str, number, date, timedelta or None
        None if it is empty.
    shown : str
        Its number format, without what is quoted and colours.
    formula : str or None
        The formula that it is the result of.
    """

    __slots__ = ("column", "formula", "shown", "value")

    def __init__(
        self, column: int, value: CellValue | datetime.timedelta, shown: str, formula: str | None
    ) -> None:
        self.column, self.value, self.shown, self.formula = column, value, shown, formula


def read_rows(
    book: Workbook,
    sheet: Sheet,
    take: Callable[[int, list[Stored]], None],
    *,
    top: int | None = None,
) -> None:
    """Read the rows of a sheet, in order.

    Parameters
    ----------
    book, sheet
        The workbook and one of its sheets.
    take
        Is given each row that has cells: its number and the cells, in order.
    top : int or None
        Number of rows from the top to read; all if None.

    Raises
    ------
    NoWorkbook
        When the sheet cannot be read, has rows or cells out of order, or exceeds a limit.
    """
    reader = _Reader(book, take, top)
    book.read(
        sheet.part, reader.start, reader.end, reader.text, top=None if top is None else _TOP_BYTES
    )


class _Reader:
    def __init__(
        self, book: Workbook, take: Callable[[int, list[Stored]], None], top: int | None
    ) -> None:
        self._strings = book.strings
        self._formats = [_shown(code) for code in book.formats]
        self._elapsed = [bool(_ELAPSED.search(code)) for code in book.formats]
        self._dates = [bool(_DATE_LETTERS.search(code.partition(";")[0])) for code in self._formats]
        # Day 60 of the calendar from 1900 is a 29 February that was none.
        self._zero = datetime.datetime(1904, 1, 1) if book.from_1904 else None
        self._take, self._top = take, top
        self._columns: dict[str, int] = {}
        self._row = self._column = 0
        self._cells: list[Stored] = []
        self._count = self._characters = 0
        self._kind = ""
        self._style = 0
        self._pieces: list[str] = []
        self._value: str | None = None
        self._formula: str | None = None
        self._runs = TextRuns(self._pieces)
        self._inline = False

    def start(self, element: str, given: dict[str, str]) -> None:
        if element == "c":
            self._begin_cell(given)
        elif element in ("v", "f", "is"):
            self._pieces.clear()
            self._inline = element == "is"
        elif element == "row":
            self._begin_row(given)
        elif self._inline:
            self._runs.start(element, given)

    def end(self, element: str) -> None:
        if element == "c":
            self._end_cell()
        elif element == "v":
            self._value = "".join(self._pieces)
        elif element == "f":
            self._formula = "=" + "".join(self._pieces)[: LIMITS.cell]
        elif element == "is":
            self._inline = False
            self._value = "".join(self._pieces)
        elif element == "row":
            if self._cells:
                self._take(self._row, self._cells)
                self._cells = []
        elif element == "sheetData":
            raise Enough
        elif self._inline:
            self._runs.end(element)

    def text(self, text: str) -> None:
        if self._inline:
            self._runs.text(text)
        elif len(self._pieces) <= LIMITS.cell:
            self._pieces.append(text)

    def _begin_row(self, given: dict[str, str]) -> None:
        row = _number(given["r"]) if "r" in given else self._row + 1
        if not self._row < row <= _LAST_ROW:
            raise NoWorkbook("the rows of the sheet are out of order")
        if self._top is not None and row > self._top:
            raise Enough
        self._row, self._column = row, 0

    def _begin_cell(self, given: dict[str, str]) -> None:
        reference = given.get("r")
        column = self._column + 1
        if reference is not None:
            match = _REFERENCE.fullmatch(reference)
            if match is None:
                raise NoWorkbook("a cell of the sheet has no place")
            column = self._columns.get(match[1]) or self._new_column(match[1])
        if column <= self._column:
            raise NoWorkbook("the cells of a row are out of order")
        # Those that are left out between two cells become cells too.
        self._count += min(column, LIMITS.columns + 1) - min(self._column, LIMITS.columns)
        if self._count > LIMITS.cells:
            raise too_large("cells in one sheet", LIMITS.cells)
        self._column = column
        self._kind = given.get("t", "n")
        self._style = _number(given.get("s", "0"))
        self._value = self._formula = None
        self._pieces.clear()

    def _new_column(self, letters: str) -> int:
        column = 0
        for letter in letters:
            column = 26 * column + ord(letter) - ord("A") + 1
        self._columns[letters] = column
        return column

    def _end_cell(self) -> None:
        value = self._meant()
        if value is None and self._formula is None:
            return
        if isinstance(value, str):
            self._characters += len(value)
            if self._characters > LIMITS.text:
                raise too_large("characters in the cells of one sheet", LIMITS.text)
        style = self._style
        shown = self._formats[style] if style < len(self._formats) else ""
        self._cells.append(Stored(self._column, value, shown, self._formula))

    def _meant(self) -> CellValue | datetime.timedelta:
        text, kind = self._value, self._kind
        if text is None:
            return None
        if kind == "s":
            index = _number(text)
            if index >= len(self._strings):
                raise NoWorkbook("a cell names a text that the workbook does not hold")
            return self._strings[index]
        if kind == "n":
            return self._figure(text.strip())
        if kind == "b":
            return text.strip() in ("1", "true")
        if kind == "d" and _ISO_DATE.fullmatch(text):
            try:
                return datetime.datetime.fromisoformat(text.removesuffix("Z"))
            except ValueError:
                return "#VALUE!"
        return text.strip()[: LIMITS.cell + 1]

    def _figure(self, text: str) -> CellValue | datetime.timedelta:
        if not text:
            return None
        match = _NUMBER.fullmatch(text) if len(text) <= _LONGEST_NUMBER else None
        if match is None:
            return text[: LIMITS.cell + 1]
        style = self._style
        if style < len(self._dates):
            if self._elapsed[style]:
                return self._span(float(text))
            if self._dates[style]:
                return self._moment(float(text))
        if match[1] is None and "e" not in text and "E" not in text:
            return int(text)
        return float(text)

    def _span(self, days: float) -> CellValue | datetime.timedelta:
        if not abs(days) < _LAST_DAY:
            return "#VALUE!"
        return datetime.timedelta(seconds=round(86_400 * days))

    def _moment(self, days: float) -> CellValue:
        if not 0 <= days < _LAST_DAY - (1_462 if self._zero is not None else 0):
            return "#VALUE!"
        seconds = round(86_400 * days)
        zero = self._zero or datetime.datetime(1899, 12, 30)
        if self._zero is None and 1 <= days < 60:
            seconds += 86_400
        moment = zero + datetime.timedelta(seconds=seconds)
        return moment.time() if days < 1 else moment


def _shown(code: str) -> str:
    return "" if code == "General" else _QUOTED_OR_COLOUR.sub("", code)


def _number(text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) <= 9):
        raise NoWorkbook("the sheet counts by something that is no number")
    return int(text)
