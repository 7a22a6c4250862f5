"""What the columns of a sample table hold, told from their header."""

from __future__ import annotations

from collections.abc import Mapping as ReadOnly
from typing import get_args

from methodlint.documents.kinds.sequence import LineKind
from methodlint.documents.quantities.quantity import parse_quantity
from methodlint.documents.quantities.unit_table import UnitProblem
from methodlint.documents.tables.grid import Cell
from methodlint.documents.tables.headers import (
    KIND_WORDS,
    LINES,
    TableWords,
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
    header: list[Cell],
    own: ReadOnly[str, str | None],
    problems: list[Problem],
    remarks: list[str],
    table: TableWords = LINES,
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
        words, unit = split_unit(cell.text, table)
        key = _mapped(cell, own, table)
        if key == "":
            passed.append(f"'{excerpt(cell.text)}'")
            continue
        if key is None or key not in table.columns:
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
        columns[-1] = _checked(TableColumn(key, table.columns[key], unit), cell, problems)
    if renamed:
        remarks.append(f"columns read: {', '.join(renamed)}")
    if passed:
        remarks.append(f"columns passed over: {', '.join(passed)}")
    return columns


def unmapped(
    header: list[Cell],
    body: list[list[Cell]],
    own: ReadOnly[str, str | None],
    columns: list[TableColumn | None],
    table: TableWords = LINES,
) -> dict[int, tuple[str, Problem]]:
    """Find the columns that no key is known for, and the key that each may hold.

    What such a column may hold is no absent value: it is withheld until the lab maps the header.

    Parameters
    ----------
    header, body : list of Cell, list of list of Cell
        The row that names the columns, and the rows below.
    own : mapping of str to str or None
        Keys of a line by headers of the lab's own, in plain words.
    columns : list of TableColumn or None
        What each column holds.

    Returns
    -------
    dict of int to (str, Problem)
        Key and problem by the column's number; an empty key where nothing hints at one. The
        problem breaks the table where the column may hold the kinds of the lines.
    """
    taken = {column.key for column in columns if column is not None}
    found: dict[int, tuple[str, Problem]] = {}
    for n, cell in enumerate(header):
        if columns[n] is not None or not cell.text:
            continue
        if _mapped(cell, own, table) in ("", *table.columns):
            continue
        near = next((key for key in meant(cell.text, table) if key not in taken), "")
        if table is LINES and "kind" not in taken and _holds_kinds(n, body):
            near = "kind"
        text = excerpt(cell.text)
        remedy = f"map it, such as `table: {{columns: {{{text}: {near}}}}}`, or " if near else ""
        said = f"did you mean '{near}'? " if near else ""
        problem = table_problem(
            "document.unknown-key",
            cell,
            f"'{text}' is no column that {_a(table.of)} knows",
            f"{said}{remedy}name a column of your own 'x-...'; "
            f"`table: {{columns: {{{text}: null}}}}` passes it over",
            breaks=near == "kind",
        )
        found[n] = (near, problem)
        taken.add(near)
    return found


def _a(word: str) -> str:
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"


def _mapped(cell: Cell, own: ReadOnly[str, str | None], table: TableWords) -> str | None:
    """Give the key that a header stands for, ``""`` if it is passed over, None if unknown."""
    for words in (plain_word(cell.text), plain_word(split_unit(cell.text, table)[0])):
        if words in own:
            return own[words] or ""
    return recognised(cell.text, table)


def _holds_kinds(n: int, body: list[list[Cell]]) -> bool:
    """Whether most cells of a column are kinds of lines."""
    words = [plain_word(row[n].text) for row in body if n < len(row) and row[n].text]
    return 2 * sum(word in get_args(LineKind) or word in KIND_WORDS for word in words) > len(words)


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
