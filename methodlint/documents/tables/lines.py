"""From a table to the lines of a sequence: every value keeps the place of its cell."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from collections.abc import Mapping as ReadOnly
from dataclasses import dataclass, field

from methodlint.documents.tables.columns import columns_of, table_problem, unmapped
from methodlint.documents.tables.grid import LIMITS, Cell, Grid, whole
from methodlint.documents.tables.headers import (
    KIND_WORDS,
    LEVEL_WORDS,
    LINES,
    TableWords,
    header_row,
    plain_word,
)
from methodlint.documents.tables.values import (
    CellWrong,
    TableColumn,
    decimal_mark,
    is_bare,
    is_figure,
    value_of,
)
from methodlint.documents.text.nodes import Mapping, Node, Scalar
from methodlint.documents.text.places import Place
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.visible import excerpt

NOTE = "document.table-read-as"

# Cells that cannot be used and are told one by one.
_MAX_REPORTED = 100

# Units that a column without one may have been written in: the person knows which, nobody else.
_UNITS_ASKED = {
    "volume": ("mL", "uL"), "time": ("min", "h"), "volume flow": ("mL/min", "uL/min"),
    "amount concentration": ("mM", "mg/mL"), "share": ("% v/v", "% w/w"),
    "pressure": ("bar", "MPa"), "mass": ("kg", "g"), "temperature": ("degC", "K"),
}  # fmt: skip


@dataclass(slots=True)
class Rows:
    """Lines that a table gives.

    Attributes
    ----------
    lines : list of Mapping
        One for each row below the header.
    broken : dict of (int, str) to Problem
        Cells that cannot be used, by row and key.
    problems : list of Problem
        What is wrong, and one note on how the table was read.
    """

    lines: list[Mapping] = field(default_factory=list)
    broken: dict[tuple[int, str], Problem] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)


def lines_of(
    grid: Grid,
    file: str,
    own_words: ReadOnly[str, str | None],
    defaults: ReadOnly[str, tuple[Node, Place]],
    table: TableWords = LINES,
) -> Rows:
    """Read the rows of a table as lines of a sequence, or as entries of a logbook.

    Parameters
    ----------
    grid : Grid
        The table.
    file : str
        Its path as shown.
    own_words : mapping of str to str or None
        Keys of a line by headers of the lab's own; None passes a column over.
    defaults : mapping of str to (Node, Place)
        Values of every line whose cell is empty or not there, with the place of their key.
    table : TableWords
        What its columns may be called.
    """
    rows = Rows(problems=list(grid.problems))
    if any(problem.breaks for problem in rows.problems):
        return rows
    top = grid.rows[: LIMITS.header_within]
    own = {plain_word(word): key for word, key in own_words.items()}
    texts = [[own.get(plain_word(c.text)) or c.text for c in row] for row in top]
    number = header_row(texts, table)
    if number is None:
        message = "no row names columns that are known" if grid.rows else "the table is empty"
        remedy = f"write a header with some of: {', '.join(list(table.columns)[:12])}, ..."
        rows.problems.append(whole(file, "document.shape-wrong", message, remedy))
        return rows
    remarks = list(grid.remarks)
    if number:
        remarks.append(f"{number} {'row' if number == 1 else 'rows'} above the header passed over")
    header = grid.rows[number]
    body = grid.rows[number + 1 :]
    columns = columns_of(header, own, rows.problems, remarks, table)
    withheld = unmapped(header, body, own, columns, table)
    rows.problems += [problem for _, problem in withheld.values()]
    if any(problem.breaks for _, problem in withheld.values()):
        return rows
    comma = _decimal_comma(grid, body, columns, rows, remarks)
    _fill(rows, header, body, columns, withheld, defaults, decimal_comma=comma)
    if table is LINES:
        for line in rows.lines:
            line.entries.setdefault("kind", Scalar("sample", "sample", True, line.place))
    _note(rows, header, body, columns, remarks)
    return rows


def _decimal_comma(
    grid: Grid,
    body: list[list[Cell]],
    columns: list[TableColumn | None],
    rows: Rows,
    remarks: list[str],
) -> bool:
    """Find out whether decimals follow a comma; a table that has both kinds is refused."""
    if grid.comma_divides:
        return False
    first: dict[str, Cell] = {}
    count: Counter[str] = Counter()
    for cell in _figures(body, columns):
        mark = decimal_mark(cell.text)
        if mark:
            count[mark] += 1
            first.setdefault(mark, cell)
    if len(count) == 2:
        odd = "." if count["."] <= count[","] else ","
        other = "," if odd == "." else "."
        why = (
            f"it is in a table whose other numbers, such as '{excerpt(first[other].text)}' "
            f"({first[other].place.cell}), have another mark before their decimals; it may be "
            "read as a thousand times as much"
        )
        for cell in _figures(body, columns):
            if decimal_mark(cell.text) == odd and not cell.trouble:
                cell.trouble, cell.remedy = why, "write all numbers of a table in one way"
    if count[","]:
        remarks.append("decimals follow a comma")
    return bool(count[","])


def _figures(body: list[list[Cell]], columns: list[TableColumn | None]) -> Iterator[Cell]:
    """Yield cells that begin with a number typed as text; a workbook's own have no mark."""
    numbers = [n for n, c in enumerate(columns) if c is not None and is_figure(c.reading)]
    for row in body:
        for n in numbers:
            if n < len(row) and (row[n].value is None or isinstance(row[n].value, str)):
                yield row[n]


def _without_unit(
    header: list[Cell], body: list[list[Cell]], columns: list[TableColumn | None], rows: Rows
) -> dict[int, Problem]:
    """Tell once, at the header, that neither it nor its cells name a unit."""
    found: dict[int, Problem] = {}
    for n, column in enumerate(columns):
        if column is None or column.unit or not isinstance(column.reading, tuple):
            continue
        bare = next((row[n] for row in body if n < len(row) and is_bare(row[n])), None)
        if bare is not None:
            text = excerpt(header[n].text)
            asked = " or ".join(f"'{text} [{unit}]'" for unit in _UNITS_ASKED[column.reading[0]])
            found[n] = table_problem(
                "document.unit-missing-or-wrong-kind",
                header[n],
                f"'{text}' names no unit, nor does '{excerpt(bare.text)}' ({bare.place.cell})",
                f"find out which unit the numbers have and write it into the header: {asked}",
            )
            rows.problems.append(found[n])
    return found


def _fill(
    rows: Rows,
    header: list[Cell],
    body: list[list[Cell]],
    columns: list[TableColumn | None],
    withheld: ReadOnly[int, tuple[str, Problem]],
    defaults: ReadOnly[str, tuple[Node, Place]],
    *,
    decimal_comma: bool,
) -> None:
    unitless = _without_unit(header, body, columns, rows)
    named = [(n, column, header[n].place) for n, column in enumerate(columns) if column is not None]
    for number, row in enumerate(body):
        entries: dict[str, Node] = {}
        places: dict[str, Place] = {}
        for n, column, place in named:
            if n >= len(row) or not row[n].text:
                continue
            try:
                entries[column.key] = value_of(row[n], column, decimal_comma=decimal_comma)
            except CellWrong as wrong:
                problem = table_problem(wrong.rule, row[n], wrong.message, wrong.remedy)
                if len(rows.broken) < _MAX_REPORTED:
                    rows.problems.append(problem)
                rows.broken[(number, column.key)] = problem
                entries[column.key] = Scalar(None, row[n].text, True, row[n].place)
            places[column.key] = place
            if n in unitless and is_bare(row[n]):
                rows.broken.setdefault((number, column.key), unitless[n])
        for n, (key, problem) in withheld.items():
            if key and n < len(row) and row[n].text:
                entries[key] = Scalar(None, row[n].text, True, row[n].place)
                places[key] = header[n].place
                rows.broken[(number, key)] = problem
        beyond = next((cell for cell in row[len(header) :] if cell.text), None)
        if beyond is not None and len(rows.problems) < 2 * _MAX_REPORTED:
            rows.problems.append(
                table_problem(
                    "document.shape-wrong",
                    beyond,
                    f"'{excerpt(beyond.text)}' is in a column without a header; a divider too "
                    "many in the row shifts all its cells",
                    "put the row in order, or give the column a header",
                )
            )
        for key, (node, key_place) in defaults.items():
            if key not in entries:
                entries[key], places[key] = node, key_place
        place = _row_place(row)
        rows.lines.append(Mapping(entries, places, place))


def _row_place(row: list[Cell]) -> Place:
    first = next(cell for cell in row if cell.text or cell.trouble).place
    last = row[-1].place
    cells = first.cell if first.cell == last.cell else f"{first.cell} to {last.cell.split()[-1]}"
    return Place(first.line, first.column, last.end_line, last.end_column, first.file, cells)


def _note(
    rows: Rows,
    header: list[Cell],
    body: list[list[Cell]],
    columns: list[TableColumn | None],
    remarks: list[str],
) -> None:
    """Say in one note how the table was read, where that is not plain."""
    words: dict[str, str] = {}
    for key, known in (("kind", KIND_WORDS), ("control_level", LEVEL_WORDS)):
        number = next((n for n, c in enumerate(columns) if c is not None and c.key == key), None)
        for row in body if number is not None else ():
            text = row[number].text if number is not None and number < len(row) else ""
            if plain_word(text) in known:
                words[excerpt(text)] = known[plain_word(text)]
    if words:
        read = ", ".join(f"'{text}' as {word}" for text, word in words.items())
        remarks.append(f"words read: {read}")
    if remarks:
        rows.problems.append(
            Problem(NOTE, "note", ("table",), header[0].place, "; ".join(remarks), breaks=False)
        )
