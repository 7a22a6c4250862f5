"""A table as read, before anybody asks what its columns mean: cells with their places."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field

from methodlint.documents.text.places import Place
from methodlint.documents.text.problems import Problem

CellValue = str | int | float | bool | datetime.datetime | datetime.date | datetime.time | None

UNREADABLE = "document.unreadable"
TOO_LARGE = "document.too-large"
TRAP = "document.type-trap"


@dataclass(frozen=True, slots=True)
class TableLimits:
    """Bounds of a table.

    Attributes
    ----------
    size : int
        Bytes of the file.
    unpacked, part : int
        Bytes of a workbook's parts when unpacked, and of one of them that is read.
    tags, attributes : int
        Tags and attributes (equals signs, to be exact) in the parts that are read.
    sheets : int
        Sheets of a workbook.
    cells, text : int
        Cells of a sheet, the empty ones between others counted too, and characters in them.
    rows, columns : int
        Rows and columns that hold anything.
    cell : int
        Characters of one cell.
    header_within : int
        Rows from the top within which the header has to stand.
    """

    size: int = 10 * 1024 * 1024
    unpacked: int = 100 * 1024 * 1024
    part: int = 32 * 1024 * 1024
    tags: int = 1_300_000
    attributes: int = 900_000
    sheets: int = 255
    cells: int = 200_000
    text: int = 8_000_000
    rows: int = 50_000
    columns: int = 200
    cell: int = 4_096
    header_within: int = 30


LIMITS = TableLimits()


@dataclass(slots=True)
class Cell:
    """One cell.

    Attributes
    ----------
    text : str
        What it shows, blanks at the ends taken off.
    place : Place
        Where it stands.
    value : str, number, date or None
        The value of a workbook's cell; None in a text.
    percent : bool
        Whether a workbook shows its number as a percentage.
    power : bool
        Whether a workbook shows its number with a power of ten.
    trouble, remedy : str
        Why it cannot be used, whatever its column means, and what to do; empty if it can.
    """

    text: str
    place: Place
    value: CellValue = None
    percent: bool = False
    power: bool = False
    trouble: str = ""
    remedy: str = ""


@dataclass(slots=True)
class Grid:
    """The cells of one table or sheet.

    Attributes
    ----------
    rows : list of list of Cell
        Rows that hold anything, in order; short rows stay short.
    remarks : list of str
        How it was read, where that is not plain.
    problems : list of Problem
        What is wrong with the file as a whole or with single characters.
    comma_divides : bool
        Whether a comma divides cells, and so cannot be a decimal comma.
    """

    rows: list[list[Cell]] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    comma_divides: bool = False


def column_letters(column: int) -> str:
    """Letters of a column counted from 1, as spreadsheets write them: A to Z, AA and on."""
    letters = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def whole(file: str, rule: str, message: str, remedy: str, line: int = 1) -> Problem:
    """Say what is wrong with a table as a whole."""
    return Problem(rule, "fault", ("table",), Place(line, 1, line, 1, file), message, remedy)
