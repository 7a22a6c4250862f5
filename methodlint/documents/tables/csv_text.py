"""CSV as spreadsheets and instruments write it: divider, encoding and quotation marks found out."""

from __future__ import annotations

import codecs
import re
from collections.abc import Iterator
from dataclasses import replace

from methodlint.documents.tables.grid import (
    LIMITS,
    TOO_LARGE,
    UNREADABLE,
    Cell,
    Grid,
    column_letters,
    whole,
)
from methodlint.documents.tables.headers import recognised
from methodlint.documents.text.characters import unseen_characters
from methodlint.documents.text.places import LineTable, Place
from methodlint.documents.text.visible import escape

_DIVIDERS = {";": "semicolons", "\t": "tabs", ",": "commas"}
_SAYS_DIVIDER = re.compile(r"sep=([;,\t])\r?\n|sep=([;,\t])\r", re.IGNORECASE)
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
# Spreadsheets keep "001" a text this way when they write CSV.
_KEPT_TEXT = re.compile(r'="([^"]*)"')
_FORMULA = re.compile(r"[=@]|[+-](?![0-9.,])")

# Cells of one row, empty ones too; spreadsheets have no more columns than that.
_MOST_CELLS = 16_384

_Span = tuple[str, int, int, bool]


def read_csv(data: bytes, file: str) -> Grid:
    """Read CSV text.

    Parameters
    ----------
    data : bytes
        UTF-8 or UTF-16 with or without a byte-order mark, else Windows-1252.
    file : str
        Its path as shown.

    Returns
    -------
    Grid
        Never raises: what is wrong is in its `problems`.
    """
    grid = Grid()
    text = _decoded(data, file, grid)
    if text is None:
        return grid
    control = _CONTROL.search(text)
    lines = LineTable(text)
    if control is not None:
        at = lines.position(control.start())[0]
        message = f"the control character {escape(control.group())} is in the table"
        grid.problems.append(whole(file, UNREADABLE, message, "export the table again", at))
        return grid
    grid.problems += [
        replace(problem, path=("table",), place=problem.place._replace(file=file))
        for problem in unseen_characters(text, lines)
    ]
    start = 0
    said = _SAYS_DIVIDER.match(text)
    if said is not None:
        divider, start = said[1] or said[2], said.end()
    else:
        divider = _divider(text)
    if text.count(divider) > LIMITS.rows * 50:
        message = f"more than {LIMITS.rows * 50} cells; the limit for a table is that"
        grid.problems.append(whole(file, TOO_LARGE, message, "divide the table"))
        return grid
    grid.comma_divides = divider == ","
    _fill(grid, text, lines, divider, start, file)
    return grid


def _decoded(data: bytes, file: str, grid: Grid) -> str | None:
    """Decode the bytes; None, with a problem, if they are no text."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        try:
            grid.remarks.append("it is written in UTF-16")
            return data.decode("utf-16")
        except UnicodeDecodeError:
            message = "the text is neither UTF-8, UTF-16 nor Windows-1252"
            grid.problems.append(whole(file, UNREADABLE, message, "Save it as UTF-8."))
            return None
    bare = data.removeprefix(codecs.BOM_UTF8)
    try:
        return bare.decode("utf-8")
    except UnicodeDecodeError as error:
        first = error.start
    try:
        text = bare.decode("cp1252")
    except UnicodeDecodeError as error:
        line = bare.count(b"\n", 0, error.start) + 1
        message = f"the byte {bare[error.start]:#04x} is neither UTF-8 nor Windows-1252"
        grid.problems.append(whole(file, UNREADABLE, message, "Save it as UTF-8.", line))
        return None
    line = bare.count(b"\n", 0, first) + 1
    grid.remarks.append(f"it is not UTF-8 (line {line}) and is read as Windows-1252")
    return text


def _divider(text: str) -> str:
    """Find out what divides the cells: what makes the most known words of a header."""

    def known(divider: str) -> tuple[int, int]:
        best = (0, 0)
        for number, spans in enumerate(_rows(text, divider, 0)):
            if number >= LIMITS.header_within:
                break
            words = {recognised(span[0]) for span in spans} - {None}
            best = max(best, (len(words), len(spans) if words else 0))
        return best

    return max(_DIVIDERS, key=known)


def _rows(text: str, divider: str, start: int) -> Iterator[list[_Span]]:
    """Yield the cells of each row: text, start, end, whether a quotation mark stays open."""
    plain = re.compile(f"[^{divider}\r\n]*")
    quoted = re.compile(r'[ ]*"((?:[^"]|"")*+)"[ ]*')
    position, length = start, len(text)
    row: list[_Span] = []
    while position <= length:
        match = quoted.match(text, position)
        if match is not None and (
            match.end() == length or text[match.end()] in (divider, "\r", "\n")
        ):
            row.append((match[1].replace('""', '"'), position, match.end(), False))
        else:
            match = plain.match(text, position)
            assert match is not None
            row.append((match[0], position, match.end(), match[0].lstrip(" ")[:1] == '"'))
        position = match.end()
        if position < length and text[position] == divider:
            position += 1
            if len(row) <= _MOST_CELLS:
                continue
        yield row
        if len(row) > _MOST_CELLS:
            return
        row = []
        if position >= length:
            return
        position += 2 if text.startswith("\r\n", position) else 1
        if position >= length:
            return


def _fill(grid: Grid, text: str, lines: LineTable, divider: str, start: int, file: str) -> None:
    kept = 0
    for number, spans in enumerate(_rows(text, divider, start), 1):
        if len(spans) > _MOST_CELLS or number > 4 * LIMITS.rows:
            line = lines.position(spans[0][1])[0]
            message = "rows or columns beyond those of a spreadsheet's sheet are in use"
            grid.problems.append(whole(file, TOO_LARGE, message, "take empty ones out", line))
            return
        if not any(span[0].strip() for span in spans):
            continue
        line = lines.position(spans[0][1])[0]
        if kept >= LIMITS.rows:
            message = f"more than {LIMITS.rows} rows; the limit for a table is that"
            grid.problems.append(whole(file, TOO_LARGE, message, "divide the table", line))
            return
        while spans and not spans[-1][0].strip():
            spans.pop()
        if len(spans) > LIMITS.columns:
            message = f"more than {LIMITS.columns} columns; the limit for a table is that"
            grid.problems.append(whole(file, TOO_LARGE, message, "take columns out", line))
            return
        kept += 1
        grid.rows.append(
            [
                _cell(span, _place(lines, span, file, f"cell {column_letters(column)}{number}"))
                for column, span in enumerate(spans, 1)
            ]
        )


def _place(lines: LineTable, span: _Span, file: str, cell: str) -> Place:
    line, column = lines.position(span[1])
    end_line, end_column = lines.position(span[2])
    return Place(line, column, end_line, end_column, file, cell)


def _cell(span: _Span, place: Place) -> Cell:
    text = span[0].strip()
    if span[3]:
        return Cell(text, place, trouble="its quotation mark is never closed",
                    remedy="close it, or take it out")  # fmt: skip
    if len(text) > LIMITS.cell:
        return Cell(text[:40], place, trouble=f"it has more than {LIMITS.cell} characters",
                    remedy="shorten it")  # fmt: skip
    kept = _KEPT_TEXT.fullmatch(text)
    if kept is not None:
        return Cell(kept[1].strip(), place)
    if _FORMULA.match(text) and len(text) > 1:
        return Cell(text, place, trouble="it starts like a formula, which nobody has worked out here",
                    remedy="export values instead of formulas")  # fmt: skip
    return Cell(text, place)
