"""Workbooks (.xlsx): values as stored, formulas by their stored results, dates told from texts.

Why not a library: openpyxl 3.1, read-only and bounded to the columns in use, needs 1.5 to 1.7 times what
a CSV of the same 10,000 lines needs, a second pass for formulas and the import of the library not counted;
this reader needs 1.35 times. It makes objects of all styles first: a workbook of 889,000 cell formats
or 500,000 fonts (a few hundred kilobytes packed) takes it longer than 8 s, and a cell of 30 million
line ends 300 MB. The bounds before unpacking (`workbook_parts`), half of this reader, would stay.
"""

from __future__ import annotations

import datetime
import re

from methodlint.documents.tables.grid import (
    LIMITS,
    TOO_LARGE,
    Cell,
    CellValue,
    Grid,
    column_letters,
    whole,
)
from methodlint.documents.tables.headers import header_row
from methodlint.documents.tables.sheet_cells import Stored, read_rows
from methodlint.documents.tables.workbook_parts import (
    SAVE,
    Enough,
    NoWorkbook,
    Sheet,
    Workbook,
    open_workbook,
)
from methodlint.documents.text.places import Place
from methodlint.documents.text.visible import visible

_ZEROS = re.compile(r"0+")


def read_workbook(data: bytes, file: str, sheet: str | None) -> Grid:
    """Read one sheet of a workbook.

    Parameters
    ----------
    data : bytes
        The file.
    file : str
        Its path as shown.
    sheet : str or None
        Name of the sheet; the only one that names columns if None.

    Returns
    -------
    Grid
        Never raises: what is wrong is in its `problems`.
    """
    grid = Grid()
    try:
        book = open_workbook(data)
        wanted = _sheet(grid, book, file, sheet)
        if wanted is not None:
            _read(grid, book, wanted, file)
    except NoWorkbook as error:
        grid.rows = []
        grid.problems.append(whole(file, error.rule, error.message, error.remedy))
    return grid


def _sheet(grid: Grid, book: Workbook, file: str, name: str | None) -> Sheet | None:
    """Sheet to read; None, with a problem, if that is not plain."""
    shown = [sheet for sheet in book.sheets if sheet.shown]
    if name is None:
        found = _only_sheet(grid, book, shown, file)
    else:
        found = next((sheet for sheet in book.sheets if sheet.name == name), None)
        if found is None:
            grid.problems.append(
                whole(file, "document.reference-unresolved", f"there is no sheet '{visible(name)}'",
                      f"Sheets are {_listed(shown)}.")
            )  # fmt: skip
    if found is not None and len(shown) > 1:
        grid.remarks.append(f"sheet '{visible(found.name)}' is read")
    return found


def _only_sheet(grid: Grid, book: Workbook, shown: list[Sheet], file: str) -> Sheet | None:
    if len(shown) == 1:
        return shown[0]
    naming = [sheet for sheet in shown if _names_columns(book, sheet)]
    if len(naming) == 1:
        return naming[0]
    message = (
        f"several sheets look like sample tables: {_listed(naming)}"
        if naming
        else f"no sheet names columns that are known: {_listed(shown)}"
    )
    grid.problems.append(
        whole(
            file, "document.shape-wrong", message, "Say which one: table: {file: ..., sheet: ...}."
        )
    )
    return None


def _listed(sheets: list[Sheet]) -> str:
    return ", ".join(f"'{visible(sheet.name)}'" for sheet in sheets[:8])


def _names_columns(book: Workbook, sheet: Sheet) -> bool:
    texts: list[list[str]] = []

    def take(number: int, cells: list[Stored]) -> None:
        texts.append([str(cell.value) for cell in cells[: LIMITS.columns]])

    read_rows(book, sheet, take, top=LIMITS.header_within)
    return header_row(texts) is not None


def _read(grid: Grid, book: Workbook, sheet: Sheet, file: str) -> None:
    title = f"sheet '{visible(sheet.name)}', cell"
    letters = [column_letters(column) for column in range(LIMITS.columns + 1)]
    formulas = 0

    def take(number: int, stored: list[Stored]) -> None:
        nonlocal formulas
        cells: list[Cell] = []
        for source in stored:
            formulas += source.formula is not None
            while len(cells) < min(source.column, LIMITS.columns + 1):
                column = len(cells) + 1
                last = len(cells) == LIMITS.columns
                where = (
                    f"{title} {column_letters(source.column) if last else letters[column]}{number}"
                )
                place = Place(number, column, number, column + 1, file, where)
                found = last or column == source.column
                cells.append(_cell(source, place) if found else Cell("", place))
        while cells and not cells[-1].text and not cells[-1].trouble:
            cells.pop()
        message = ""
        if number > 2 * LIMITS.rows and cells:
            message = f"rows beyond {2 * LIMITS.rows} are in use; the limit for a table is that"
        elif len(cells) > LIMITS.columns or (cells and len(grid.rows) >= LIMITS.rows):
            message = f"more than {LIMITS.rows} rows or {LIMITS.columns} columns; the limit is that"
        if message:
            grid.problems.append(whole(file, TOO_LARGE, message, "divide the table", number))
            raise Enough
        if cells:
            grid.rows.append(cells)

    read_rows(book, sheet, take)
    if formulas:
        formula = "1 formula is" if formulas == 1 else f"{formulas} formulas are"
        grid.remarks.append(f"{formula} read by the results stored in the file")


def _cell(stored: Stored, place: Place) -> Cell:
    value, shown = stored.value, stored.shown
    if value is None:
        return Cell(
            str(stored.formula)[:40],
            place,
            trouble="the formula's result is not stored in the file",
            remedy=SAVE,
        )
    if isinstance(value, datetime.timedelta):  # which spreadsheets make of 25:00
        return Cell(str(value), place, datetime.time(), trouble="it is a time that passed",
                    remedy="write a number, and its unit in the header")  # fmt: skip
    zeros = len(shown) if _ZEROS.fullmatch(shown) else 0
    return _with_value(value, place, zeros, "%" in shown, "E+" in shown)


def _with_value(value: CellValue, place: Place, zeros: int, percent: bool, powers: bool) -> Cell:
    if isinstance(value, bool):
        return Cell(str(value).upper(), place, value)
    if isinstance(value, datetime.datetime):
        text = value.isoformat(sep=" ", timespec="minutes")
        return Cell(text, place, value)
    if isinstance(value, (datetime.date, datetime.time)):
        return Cell(value.isoformat(), place, value)
    if isinstance(value, int):
        return Cell(str(value).zfill(zeros), place, value, percent=percent, power=powers)
    if isinstance(value, float):
        text = f"{value:.15g}"
        if value.is_integer() and abs(value) < 1e15:
            text = str(int(value)).zfill(zeros)
        return Cell(text, place, value, percent=percent, power=powers)
    if value is None or not isinstance(value, str):
        return Cell("", place)
    text = value.strip()
    if len(text) > LIMITS.cell:
        return Cell(text[:40], place, trouble=f"it has more than {LIMITS.cell} characters",
                    remedy="shorten it")  # fmt: skip
    return Cell(text, place, value)
