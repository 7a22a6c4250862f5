"""From a cell's text to the value that its column holds; nothing is guessed."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass

from methodlint.documents.tables.grid import TRAP, Cell
from methodlint.documents.tables.headers import (
    DATE,
    FLAG,
    INTEGER,
    KIND_WORDS,
    LEVEL_WORDS,
    MOMENT,
    NAMES,
    NUMBER,
    TEXT,
    Reading,
    plain_word,
)
from methodlint.documents.text.nodes import Node, Scalar, ScalarValue, SequenceNode
from methodlint.documents.text.visible import excerpt

_DECIMAL_COMMA = re.compile(r"([+-]?[0-9]+),([0-9]+)(?![0-9,.])(.*)", re.DOTALL)
_DECIMAL_POINT = re.compile(r"[+-]?[0-9]*\.[0-9]+(?![0-9,.]).*", re.DOTALL)
_BARE = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?")
_FIGURE = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_WHOLE = re.compile(r"([+-]?[0-9]+)(?:\.0+)?")
# How spreadsheets write "1E2" and long numbers once they have taken them for figures.
_ROUNDED_AWAY = re.compile(r"[+-]?[0-9](?:[.,][0-9]+)?E[+-][0-9]{2,3}")
_GERMAN_DATE = re.compile(
    r"([0-9]{1,2})\.([0-9]{1,2})\.([0-9]{4})(?:[ T]+([0-9]{1,2}:[0-9]{2}.*))?"
)
_SLASHED_DATE = re.compile(r"[0-9]{1,2}/[0-9]{1,2}/[0-9]{2,4}.*")
_SPREADSHEET_ERROR = re.compile(r"#(?:N/A|REF!|VALUE!|DIV/0!|NAME\?|NUM!|NULL!|NV|WERT!|BEZUG!)")
_TRUE = frozenset({"true", "yes", "y", "x", "1", "ja", "wahr", "oui", "vrai"})
_FALSE = frozenset({"false", "no", "n", "0", "nein", "falsch", "non", "faux"})
_FIGURES = (INTEGER, NUMBER)


class CellWrong(ValueError):
    """A cell cannot be used; message, remedy and the id of the rule that says so."""

    def __init__(self, message: str, remedy: str, rule: str = TRAP) -> None:
        super().__init__(message)
        self.message, self.remedy, self.rule = message, remedy, rule


@dataclass(frozen=True, slots=True)
class TableColumn:
    """One column: the key of a line that it holds, how its cells are read, their unit."""

    key: str
    reading: Reading
    unit: str = ""


def is_figure(reading: Reading) -> bool:
    """Whether cells of a column begin with a number."""
    return isinstance(reading, tuple) or reading in _FIGURES


def is_bare(cell: Cell) -> bool:
    """Whether a cell holds a number without a unit."""
    return not cell.percent and bool(_BARE.fullmatch(cell.text))


def decimal_mark(text: str) -> str:
    """Mark that divides off the decimals of a number with or without a unit: comma, point or none."""
    if _DECIMAL_COMMA.fullmatch(text):
        return ","
    return "." if _DECIMAL_POINT.fullmatch(text) else ""


def value_of(cell: Cell, column: TableColumn, *, decimal_comma: bool) -> Node:
    """Read a cell as its column asks.

    Parameters
    ----------
    cell : Cell
        A cell that is not empty.
    column : Column
        Its column.
    decimal_comma : bool
        Whether a comma divides off decimals in this table.

    Returns
    -------
    Node
        The value with the cell's place.

    Raises
    ------
    CellWrong
        If it cannot be used; what the schema finds by itself is left to it.
    """
    if cell.trouble:
        raise CellWrong(f"'{excerpt(cell.text)}': {cell.trouble}", cell.remedy)
    if _SPREADSHEET_ERROR.fullmatch(cell.text):
        raise CellWrong(f"the spreadsheet could not work out this cell: {cell.text}",
                        "put the formula right, or write the value")  # fmt: skip
    reading = column.reading
    if reading == NAMES:
        names = [part.strip() for part in re.split(r"[;,+]", cell.text)]
        return SequenceNode(
            [Scalar(name, name, True, cell.place) for name in names if name], cell.place
        )
    value: ScalarValue
    if isinstance(reading, tuple):
        value = _quantity(cell, column, decimal_comma)
    elif reading in _FIGURES:
        value = _number(cell, reading, decimal_comma)
    elif reading == FLAG:
        value = _flag(cell)
    elif reading in (DATE, MOMENT):
        value = _date(cell, reading)
    else:
        assert reading == TEXT
        value = _text(cell, column)
    return Scalar(value, cell.text, True, cell.place)


def _point(text: str, decimal_comma: bool) -> str:
    match = _DECIMAL_COMMA.fullmatch(text) if decimal_comma else None
    return f"{match[1]}.{match[2]}{match[3]}" if match else text


def _no_time(cell: Cell) -> None:
    if isinstance(cell.value, (datetime.date, datetime.time)):
        raise CellWrong(
            f"the cell holds the date or time {cell.text}, which a spreadsheet makes of '1-2' or "
            "'1:30'",
            "set the cell's format to text and type the value again",
        )


def _quantity(cell: Cell, column: TableColumn, decimal_comma: bool) -> str:
    _no_time(cell)
    text = _point(cell.text, decimal_comma)
    if not _BARE.fullmatch(text):
        return text
    if cell.percent and not column.unit and isinstance(cell.value, (int, float)):
        return f"{cell.value * 100.0:.15g} %"
    return f"{text} {column.unit}" if column.unit else text


def _number(cell: Cell, reading: Reading, decimal_comma: bool) -> ScalarValue:
    _no_time(cell)
    text = _point(cell.text, decimal_comma)
    whole = _WHOLE.fullmatch(text) if len(text) <= 64 else None
    if whole is not None:
        return int(whole[1])
    if reading == NUMBER and len(text) <= 64 and _FIGURE.fullmatch(text):
        return float(text)
    raise CellWrong(
        f"'{excerpt(cell.text)}' is no {'whole ' if reading == INTEGER else ''}number",
        "write digits, decimals after a point, without a unit"
        if reading == NUMBER
        else "write digits alone",
    )


def _flag(cell: Cell) -> ScalarValue:
    word = cell.text.casefold()
    if word in _TRUE:
        return True
    if word in _FALSE:
        return False
    raise CellWrong(f"'{excerpt(cell.text)}' is neither yes nor no", "write yes or no")


def _date(cell: Cell, reading: Reading) -> str:
    if isinstance(cell.value, datetime.datetime):
        return (cell.value.date() if reading == DATE else cell.value).isoformat()
    if isinstance(cell.value, datetime.date):
        return cell.value.isoformat()
    match = _GERMAN_DATE.fullmatch(cell.text)
    if match is not None:
        clock = f"T{match[4].zfill(5)}" if match[4] and reading == MOMENT else ""
        return f"{match[3]}-{int(match[2]):02}-{int(match[1]):02}{clock}"
    if _SLASHED_DATE.fullmatch(cell.text):
        raise CellWrong(
            f"'{excerpt(cell.text)}' may be read with the day or the month first",
            "write year, month and day, such as 2026-11-24",
            "document.value-implausible",
        )
    return cell.text


def _text(cell: Cell, column: TableColumn) -> str:
    _no_time(cell)
    if isinstance(cell.value, bool):
        raise CellWrong(f"the cell holds the truth value {cell.text}",
                        "set the cell's format to text and type the word again")  # fmt: skip
    if cell.power or _ROUNDED_AWAY.fullmatch(cell.text):
        raise CellWrong(
            f"'{cell.text}' is what a spreadsheet makes of '1E2' or of a long number",
            "set the cell's format to text and type the value again",
        )
    if column.key == "kind":
        return KIND_WORDS.get(plain_word(cell.text), cell.text.casefold())
    if column.key == "control_level":
        return LEVEL_WORDS.get(plain_word(cell.text), cell.text.casefold())
    return cell.text
