"""Where the lines of a sequence come from: written out, from a table, or laid out from blocks.

Whatever the source, the result is the document's tree with a plain list of lines in it, each
value with its own place: everything that follows sees lines and nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from methodlint.documents.blocks.layout import BlockLayout
from methodlint.documents.blocks.pieces import CannotLayOut
from methodlint.documents.tables.csv_text import read_csv
from methodlint.documents.tables.files import NoTable, TableFile, TableSource
from methodlint.documents.tables.headers import LINES, TableWords
from methodlint.documents.tables.lines import Rows, lines_of
from methodlint.documents.text.nodes import Mapping, Node, Scalar, SequenceNode
from methodlint.documents.text.places import Path, Place
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import Read

_SOURCES = ("lines", "table", "blocks")
_HOLDERS = (*_SOURCES, "named_lines")


@dataclass(slots=True)
class LaidOut:
    """A sequence whose lines stand written out.

    Attributes
    ----------
    read : Read
        The document with its lines.
    problems : list of Problem
        What is wrong with the table or the blocks.
    tables : tuple of TableFile
        Tables that were read.
    unexplained : Problem or None
        Why there are no lines, to be reported if nothing else explains it.
    """

    read: Read
    problems: list[Problem]
    tables: tuple[TableFile, ...] = ()
    unexplained: Problem | None = None


def laid_out(read: Read, tables: TableSource | None) -> LaidOut | None:
    """Write the lines of a sequence out.

    Parameters
    ----------
    read : Read
        A document of the kind sequence.
    tables : callable or None
        Gives the tables that it names; None where there is no folder to look in.

    Returns
    -------
    LaidOut or None
        None if the lines are written out already.
    """
    root = read.root
    if not isinstance(root, Mapping) or not {"table", "blocks"} & root.entries.keys():
        return None
    at = next(key for key in ("table", "blocks") if key in root.entries)
    place = root.key_places[at]
    sources = [key for key in _SOURCES if key in root.entries]
    if len(sources) > 1:
        problem = Problem(
            "document.shape-wrong", "fault", (at,), place,
            f"the lines of this sequence come from {' and from '.join(sources)}",
            "write all of them under blocks, in the order in which they are injected: "
            "- table: ..., - lines: [...].",
        )  # fmt: skip
        return _without_lines(read, root, [problem], problem)
    for path, problem in read.broken.items():
        if path and path[0] in _HOLDERS:
            return _without_lines(read, root, [], problem)
    opened: dict[str, TableFile] = {}

    def read_table(node: Node, defaults: dict[str, tuple[Node, Place]]) -> Rows:
        return table_rows(node, defaults, tables, opened)

    named = root.entries.get("named_lines")
    layout = BlockLayout(named if isinstance(named, Mapping) else None, read_table)
    source = root.entries[at]
    try:
        if at == "table":
            layout.add_table(source)
        else:
            if not isinstance(source, SequenceNode):
                raise CannotLayOut
            for block in source.items:
                layout.add_block(block)
    except CannotLayOut as reason:
        found = [*layout.problems, *([reason.problem] if reason.problem else [])]
        why = next((problem for problem in found if problem.breaks), None)
        problem = why or Problem(
            "document.shape-wrong", "fault", (at,), place, "no lines can be made of this",
            "see the other problems there",
        )  # fmt: skip
        done = _without_lines(read, root, found, problem)
        done.unexplained = None if why is not None else problem
    else:
        broken: dict[Path, Problem] = {
            ("lines", n, key): problem for (n, key), problem in layout.broken.items()
        }
        done = _with(read, root, layout.lines, place, layout.problems, broken)
    done.tables = tuple(opened.values())
    return done


def _with(
    read: Read,
    root: Mapping,
    lines: list[Mapping],
    place: Place,
    problems: list[Problem],
    broken: dict[Path, Problem],
) -> LaidOut:
    new = Mapping(
        {**root.entries, "lines": SequenceNode(list(lines), place)},
        {**root.key_places, "lines": place},
        root.place,
    )
    return LaidOut(replace(read, root=new, broken={**read.broken, **broken}), problems)


def _without_lines(read: Read, root: Mapping, problems: list[Problem], why: Problem) -> LaidOut:
    """Leave a sequence without lines; whoever needs them learns why there are none."""
    entries = {key: node for key, node in root.entries.items() if key != "lines"}
    bare = Mapping(entries, root.key_places, root.place)
    return LaidOut(replace(read, root=bare, broken={**read.broken, ("lines",): why}), problems)


def table_rows(
    node: Node,
    defaults: dict[str, tuple[Node, Place]],
    tables: TableSource | None,
    opened: dict[str, TableFile],
    words: TableWords = LINES,
) -> Rows:
    """Read the table that a node names.

    Raises
    ------
    CannotLayOut
        If there is no such table.
    """
    named, sheet = node, None
    own_words: dict[str, str | None] = {}
    if isinstance(node, Mapping):
        named = node.entries.get("file", node)
        given = node.entries.get("sheet")
        sheet = given.text if isinstance(given, Scalar) else None
        columns = node.entries.get("columns")
        if isinstance(columns, Mapping):
            own_words = {
                word: str(key.value) if key.value is not None else None
                for word, key in columns.entries.items()
                if isinstance(key, Scalar)
            }
        common = node.entries.get("every_line")
        if isinstance(common, Mapping):
            written = {key: (n, common.key_places[key]) for key, n in common.entries.items()}
            defaults = {**defaults, **written}
    if not isinstance(named, Scalar):
        raise CannotLayOut
    try:
        if tables is None:
            raise NoTable("tables are read only where there is a lab folder",
                          "check the sequence as a file")  # fmt: skip
        table = opened.get(named.text) or tables(named.text)
    except NoTable as wrong:
        path: Path = ("table",)
        problem = Problem(wrong.rule, "fault", path, named.place, wrong.message, wrong.remedy)
        raise CannotLayOut(problem) from None
    opened[named.text] = table
    if table.workbook:
        # Its library is an extra and slow to import.
        from methodlint.documents.tables.workbook import read_workbook

        grid = read_workbook(table.data, table.path, sheet)
    else:
        grid = read_csv(table.data, table.path)
    return lines_of(grid, table.path, own_words, defaults, words)
