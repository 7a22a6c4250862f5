"""What the columns of a sample table hold, told from their header."""

from __future__ import annotations

from collections.abc import Mapping as ReadOnly

from methodlint.documents.quantities.quantity import parse_quantity
from methodlint.documents.quantities.unit_table import UnitProblem
from methodlint.documents.tables.grid import Cell
from methodlint.documents.tables.headers import (
    COLUMNS,
    meant,
    plain_word,
    recognised,
    split_unit,
)
from methodlint.documents.tables.values import TableColumn
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.visible import excerpt


def table_problem(
    rule: str, cell: Cell, message: str, remedy: str, *, breaks: bool = True
) -> Problem:
    """Say what is wrong with one cell."""
    return Problem(rule, "fault", ("table",), cell.place, message, remedy, breaks=breaks)


def columns_of(
    header: list[Cell], own: ReadOnly[str, str | None], problems: list[Problem], remarks: list[str]
) -> list[TableColumn | None]:
    """Tell what each column holds; None for one that is passed over."""
    columns: list[TableColumn | None] = []
    renamed: list[str] = []
    passed: list[str] = []
    first: dict[str, Cell] = {}
    for cell in header:
        columns.append(None)
        if not cell.text:
            continue
        words, unit = split_unit(cell.text)
        known = plain_word(cell.text) in own or plain_word(words) in own
        key = own.get(plain_word(cell.text), own.get(plain_word(words)))
        key = key if known else recognised(cell.text)
        if key == "" or (known and key is None):
            passed.append(f"'{excerpt(cell.text)}'")
            continue
        if key is None or key not in COLUMNS:
            near = meant(cell.text)
            said = f"did you mean '{near[0]}'? " if near else ""
            problems.append(
                table_problem(
                    "document.unknown-key",
                    cell,
                    f"'{excerpt(cell.text)}' is no column that a line knows",
                    f"{said}Columns of your own start with 'x-'",
                    breaks=False,
                )
            )
            continue
        if key in first:
            problems.append(
                Problem(
                    "document.duplicate-key-or-id", "fault", ("table",), cell.place,
                    f"'{excerpt(cell.text)}' and '{excerpt(first[key].text)}' "
                    f"({first[key].place.cell}) both hold {key}",
                    "take one of the columns out", also=(first[key].place,),
                )
            )  # fmt: skip
            continue
        first[key] = cell
        if plain_word(words).replace(" ", "_") != key:
            renamed.append(f"'{excerpt(cell.text)}' as '{key}'")
        columns[-1] = _checked(TableColumn(key, COLUMNS[key], unit), cell, problems)
    if renamed:
        remarks.append(f"columns read: {', '.join(renamed)}")
    if passed:
        remarks.append(f"columns passed over: {', '.join(passed)}")
    return columns


def _checked(column: TableColumn, cell: Cell, problems: list[Problem]) -> TableColumn | None:
    """Look at the unit in a header once, not in every row."""
    if not column.unit:
        return column
    if not isinstance(column.reading, tuple):
        return TableColumn(column.key, column.reading)
    try:
        parse_quantity(f"1 {column.unit}", column.reading)
    except UnitProblem as problem:
        problems.append(
            table_problem(
                problem.rule, cell, f"'{excerpt(cell.text)}': {problem.message}", problem.remedy
            )
        )
        return None
    return column
