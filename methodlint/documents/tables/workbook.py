"""Workbooks (.xlsx): values as stored, formulas by their stored results, dates told from texts.

The library that reads them is an extra and imported only when a table is a workbook.
"""

from __future__ import annotations

import datetime
import io
import re
import warnings
import zipfile
import zlib
from typing import Any

from methodlint.documents.places import Place
from methodlint.documents.tables.grid import (
    LIMITS,
    TOO_LARGE,
    UNREADABLE,
    Cell,
    CellValue,
    Grid,
    column_letters,
    whole,
)
from methodlint.documents.tables.headers import header_row
from methodlint.documents.visible import visible

_ZEROS = re.compile(r"0+")
_QUOTED_OR_COLOUR = re.compile(r'"[^"]*"|\[[^\]]*\]|\\.')
_SAVE = "Open the file in a spreadsheet, save it, and check again."


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
    refused = _refused(data)
    if refused is not None:
        rule, message, remedy = refused
        grid.problems.append(whole(file, rule, message, remedy))
        return grid
    try:
        from openpyxl import load_workbook
    except ImportError:
        message = "workbooks are read with an extra that is not installed: methodlint[xlsx]"
        remedy = "install it, or save the sheet as CSV"
        grid.problems.append(whole(file, UNREADABLE, message, remedy))
        return grid
    try:
        with warnings.catch_warnings():
            # It warns of what it leaves out: styles, checks of what is typed in.
            warnings.simplefilter("ignore")
            values = load_workbook(
                io.BytesIO(data), read_only=True, data_only=True, keep_links=False
            )
            formulas = load_workbook(io.BytesIO(data), read_only=True, keep_links=False)
            _read(grid, values, formulas, file, sheet)
    except Exception as error:  # the file decides what the library stumbles over
        message = f"the workbook cannot be read: {visible(type(error).__name__)}"
        grid.rows = []
        grid.problems.append(whole(file, UNREADABLE, message, _SAVE))
    return grid


def _refused(data: bytes) -> tuple[str, str, str] | None:
    """Why a file is not opened as a workbook at all; None if it may be."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as parts:
            infos = parts.infolist()
            if sum(info.file_size for info in infos) > LIMITS.unpacked or len(infos) > 1_000:
                message = (
                    f"the workbook unpacks to more than {LIMITS.unpacked} bytes; the limit is that"
                )
                return TOO_LARGE, message, "Save the one sheet as CSV."
            for info in infos:
                if info.filename.endswith((".xml", ".rels")):
                    with parts.open(info) as part:
                        head = part.read(4_096).replace(b"\x00", b"")
                    if b"<!DOCTYPE" in head or b"<!ENTITY" in head:
                        message = (
                            f"{visible(info.filename)} declares what no workbook needs (DOCTYPE)"
                        )
                        return UNREADABLE, f"the workbook is refused: {message}", _SAVE
    except (
        zipfile.BadZipFile,
        zlib.error,
        NotImplementedError,
        RuntimeError,
        OSError,
        EOFError,
        ValueError,
    ):
        return UNREADABLE, "the file is no workbook, or it is damaged or locked", _SAVE
    return None


def _read(grid: Grid, values: Any, formulas: Any, file: str, sheet: str | None) -> None:
    names = [s.title for s in values.worksheets if s.sheet_state == "visible"]
    if sheet is not None and sheet not in {s.title for s in values.worksheets}:
        listed = ", ".join(f"'{visible(name)}'" for name in names[:8])
        message = f"there is no sheet '{visible(sheet)}'"
        grid.problems.append(
            whole(file, "document.reference-unresolved", message, f"Sheets are {listed}.")
        )
        return
    name = sheet if sheet is not None else _only_sheet(grid, values, names, file)
    if name is None:
        return
    if len(names) > 1:
        grid.remarks.append(f"sheet '{visible(name)}' is read")
    stored, written = values[name], formulas[name]
    # What a workbook says about the extent of its sheets may be anything.
    stored.reset_dimensions()
    written.reset_dimensions()
    count = 0
    most = LIMITS.columns + 1
    pairs = zip(stored.iter_rows(max_col=most), written.iter_rows(max_col=most), strict=False)
    for number, (row, source) in enumerate(pairs, 1):
        if number > 2 * LIMITS.rows:
            message = f"rows beyond {2 * LIMITS.rows} are in use; the limit for a table is that"
            grid.problems.append(whole(file, TOO_LARGE, message, "divide the table", number))
            return
        cells = []
        for column, (cell, written_cell) in enumerate(zip(row, source, strict=False), 1):
            where = f"sheet '{visible(name)}', cell {column_letters(column)}{number}"
            place = Place(number, column, number, column + 1, file, where)
            cells.append(_cell(cell, written_cell, place))
            count += isinstance(written_cell.value, str) and written_cell.data_type == "f"
        while cells and not cells[-1].text and not cells[-1].trouble:
            cells.pop()
        if len(cells) > LIMITS.columns or len(grid.rows) >= LIMITS.rows:
            message = f"more than {LIMITS.rows} rows or {LIMITS.columns} columns; the limit is that"
            grid.problems.append(whole(file, TOO_LARGE, message, "divide the table", number))
            return
        if cells:
            grid.rows.append(cells)
    if count:
        formula = "1 formula is" if count == 1 else f"{count} formulas are"
        grid.remarks.append(f"{formula} read by the results stored in the file")


def _only_sheet(grid: Grid, values: Any, names: list[str], file: str) -> str | None:
    """Sheet to read when none is named; None, with a problem, if that is not plain."""
    naming = []
    for name in names:
        values[name].reset_dimensions()
        top = values[name].iter_rows(
            max_row=LIMITS.header_within, max_col=LIMITS.columns, values_only=True
        )
        if (
            header_row([[str(value) for value in row if value is not None] for row in top])
            is not None
        ):
            naming.append(name)
    if len(naming) == 1 or len(names) == 1:
        return naming[0] if naming else names[0]
    listed = ", ".join(f"'{visible(name)}'" for name in (naming or names)[:8])
    message = (
        f"several sheets look like sample tables: {listed}"
        if naming
        else f"no sheet names columns that are known: {listed}"
    )
    grid.problems.append(
        whole(
            file, "document.shape-wrong", message, "Say which one: table: {file: ..., sheet: ...}."
        )
    )
    return None


def _cell(cell: Any, written: Any, place: Place) -> Cell:
    value = cell.value
    if value is None:
        if getattr(written, "data_type", "") == "f":
            return Cell(
                str(written.value)[:40],
                place,
                trouble="the formula's result is not stored in the file",
                remedy=_SAVE,
            )
        return Cell("", place)
    shown = _QUOTED_OR_COLOUR.sub("", str(cell.number_format or ""))
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
    if not isinstance(value, str):  # a duration, which spreadsheets make of 25:00
        return Cell(str(value), place, datetime.time(), trouble="it is a time that passed",
                    remedy="write a number, and its unit in the header")  # fmt: skip
    text = value.strip()
    if len(text) > LIMITS.cell:
        return Cell(text[:40], place, trouble=f"it has more than {LIMITS.cell} characters",
                    remedy="shorten it")  # fmt: skip
    return Cell(text, place, value)
