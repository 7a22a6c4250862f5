"""Lays the blocks of a sequence out as lines; each value keeps the place where it was written."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from methodlint.documents.blocks.pieces import (
    CannotLayOut,
    as_many,
    figure,
    groups,
    has_number,
    injections,
    mapping,
    name_of,
    number_at,
    replicates,
    wells_at,
    word,
    wrong,
)
from methodlint.documents.tables.lines import Rows
from methodlint.documents.text.names import nearest
from methodlint.documents.text.nodes import Mapping, Node, Scalar, SequenceNode
from methodlint.documents.text.places import Place
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.visible import excerpt

MOST_LINES = 50_000
"""Lines of one sequence, once laid out."""

TableReader = Callable[[Node, dict[str, tuple[Node, Place]]], Rows]
"""Reads the table that a node names, with values for cells that are empty."""


@dataclass(slots=True)
class BlockLayout:
    """Lines under way.

    Attributes
    ----------
    named : Mapping or None
        Lines that others refer to by name.
    read_table : callable
        Reads a table.
    lines : list of Mapping
        Lines so far.
    broken : dict of (int, str) to Problem
        Values that cannot be used, by line and key.
    problems : list of Problem
        What is wrong.
    """

    named: Mapping | None
    read_table: TableReader
    lines: list[Mapping] = field(default_factory=list)
    broken: dict[tuple[int, str], Problem] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    # Lines ---------------------------------------------------------------------------------

    def add(self, lines: Iterable[Mapping]) -> None:
        """Add lines, up to the limit."""
        for line in lines:
            self.lines.append(line)
            if len(self.lines) > MOST_LINES:
                raise wrong(line, f"more than {MOST_LINES} lines; the limit for a sequence is that",
                            "divide the sequence", "document.too-large")  # fmt: skip

    def add_table(self, node: Node) -> None:
        """Add the lines of a table."""
        self.add_rows(self.read_table(node, {}))

    def add_rows(self, rows: Rows) -> None:
        """Add the rows of a table, with what is wrong with them."""
        self.problems += rows.problems
        if not rows.lines and any(problem.breaks for problem in rows.problems):
            raise CannotLayOut
        start = len(self.lines)
        self.broken |= {(start + n, key): p for (n, key), p in rows.broken.items()}
        self.add(rows.lines)

    def written(self, node: Node | None) -> list[Mapping]:
        """Lines of a list, or of a single line or name."""
        if node is None:
            return []
        items = node.items if isinstance(node, SequenceNode) else [node]
        return [self.line(item) for item in items]

    def line(self, node: Node) -> Mapping:
        """Make a line of a mapping, of a name, or of ``{use: name}`` with keys that differ."""
        if isinstance(node, Scalar):
            return self._named(node, node.place)
        if not isinstance(node, Mapping):
            raise CannotLayOut
        use = node.entries.get("use")
        if use is None:
            return node
        if not isinstance(use, Scalar):
            raise CannotLayOut
        base = self._named(use, node.place)
        own = {key: below for key, below in node.entries.items() if key != "use"}
        return Mapping({**base.entries, **own}, {**base.key_places, **node.key_places}, node.place)

    def _named(self, node: Scalar, place: Place) -> Mapping:
        known = self.named.entries if self.named is not None else {}
        found = known.get(node.text)
        if isinstance(found, Mapping):
            return Mapping(found.entries, found.key_places, place)
        if found is not None:
            raise CannotLayOut
        near = nearest(node.text, known, limit=3, count=1)
        remedy = f"did you mean '{excerpt(near[0][0])}'?" if near else "write it under named_lines"
        raise wrong(node, f"there is no line '{excerpt(node.text)}' under named_lines", remedy,
                    "document.reference-unresolved")  # fmt: skip

    # Blocks --------------------------------------------------------------------------------

    def add_block(self, block: Node) -> None:
        """Add the lines of one block."""
        if not isinstance(block, Mapping):
            raise CannotLayOut
        entries = block.entries
        given = [key for key in ("lines", "table", "calibrators", "samples") if key in entries]
        if len(given) != 1:
            said = " and ".join(given) if given else "none of them"
            raise wrong(block, "a block holds one of lines, table, calibrators and samples; "
                        f"this one holds {said}", "make a block of each")  # fmt: skip
        for key, of in (("bracket", "samples"), ("blank_after_top", "calibrators")):
            if key in entries and given[0] not in (of, "table" if of == "samples" else of):
                raise wrong(entries[key], f"'{key}' belongs to {of}", f"put it beside {of}")
        if given[0] == "lines":
            self.add(self.written(entries["lines"]))
        elif given[0] == "calibrators":
            self._add_calibrators(block)
        elif "bracket" in entries:
            self._add_bracketed(self._samples(block), entries["bracket"])
        else:
            self.add_rows(self._samples(block))

    def _add_calibrators(self, block: Mapping) -> None:
        made = mapping(block.entries["calibrators"])
        amounts = made.entries.get("levels") or made.entries.get("concentrations")
        key = "level" if "levels" in made.entries else "concentration"
        if not isinstance(amounts, SequenceNode) or not amounts.items:
            raise wrong(made, "calibrators have no levels", "write levels: [1, 2, 5, 10]")
        count = len(amounts.items)
        wells = wells_at(made, by_columns=False)
        as_many(made, wells, count, "calibrators")
        pattern = made.entries.get("sample")
        entries, places = self._every_line(made)
        lines = []
        for number, amount in enumerate(amounts.items):
            if not isinstance(amount, Scalar):
                raise CannotLayOut
            line = {"kind": word("calibrator", made.place), **entries, key: amount}
            line["sample"] = name_of(pattern, made.place, number + 1, amount.text, "C{n}")
            if wells is not None:
                line["well"] = wells[number]
            lines.append((amount, Mapping(line, {**made.key_places, **places}, amount.place)))
        order = made.entries.get("order")
        said = order.text if isinstance(order, Scalar) else "ascending"
        if said != "as written":
            lines.sort(key=lambda item: figure(item[0]), reverse=said == "descending")
        top = max(figure(amount) for amount, _ in lines)
        times = number_at(made, "replicates", 1)
        behind = self.written(block.entries.get("blank_after_top"))
        for amount, made_line in lines:
            self.add(replicates(made_line, times))
            if figure(amount) == top:
                self.add(behind)

    def _samples(self, block: Mapping) -> Rows:
        """Rows of a block of samples, not yet among the lines."""
        if "table" in block.entries:
            return self.read_table(block.entries["table"], {})
        made = mapping(block.entries["samples"])
        by = made.entries.get("by")
        wells = wells_at(made, by_columns=isinstance(by, Scalar) and by.text == "columns")
        times = number_at(made, "replicates", 1)
        if "table" in made.entries:
            rows = self._table_of_samples(made, wells)
        else:
            rows = Rows(self._by_number(made, wells))
        if times == 1:
            return rows
        broken = {
            (n * times + k, key): p for (n, key), p in rows.broken.items() for k in range(times)
        }
        lines = [line for one in rows.lines for line in replicates(one, times)]
        return Rows(lines, broken, rows.problems)

    def _table_of_samples(self, made: Mapping, wells: list[Scalar] | None) -> Rows:
        entries, places = self._every_line(made)
        rows = self.read_table(
            made.entries["table"],
            {key: (node, places.get(key, made.place)) for key, node in entries.items()},
        )
        if wells is None or not rows.lines:
            return rows
        as_many(made, wells, len(rows.lines), "rows in the table")
        rows.lines = [
            line
            if "well" in line.entries
            else Mapping({**line.entries, "well": well}, line.key_places, line.place)
            for line, well in zip(rows.lines, wells, strict=False)
        ]
        return rows

    def _by_number(self, made: Mapping, wells: list[Scalar] | None) -> list[Mapping]:
        pattern = made.entries.get("sample")
        if not isinstance(pattern, Scalar):
            raise wrong(made, "samples have neither a name nor a table",
                        "write sample: 'wine {n:03}', or table: samples.csv")  # fmt: skip
        count = number_at(made, "number", len(wells) if wells is not None else 0)
        if count == 0:
            raise wrong(made, "nothing says how many samples there are",
                        "write their wells, or number: 40")  # fmt: skip
        as_many(made, wells, count, "samples")
        if count > 1 and not has_number(pattern):
            raise wrong(pattern, f"{count} samples get the same name '{excerpt(pattern.text)}'",
                        "put {n:03} into it")  # fmt: skip
        entries, places = self._every_line(made)
        first = number_at(made, "first", 1)
        lines = []
        for number in range(count):
            line = {"kind": word("sample", made.place), **entries}
            line["sample"] = name_of(pattern, made.place, first + number, "", "")
            if wells is not None:
                line["well"] = wells[number]
            lines.append(Mapping(line, {**made.key_places, **places}, made.place))
        return lines

    @staticmethod
    def _every_line(made: Mapping) -> tuple[dict[str, Node], dict[str, Place]]:
        """Keys that every line of a block has."""
        entries: dict[str, Node] = {}
        places: dict[str, Place] = {}
        common = made.entries.get("every_line")
        if isinstance(common, Mapping):
            entries, places = dict(common.entries), dict(common.key_places)
        if "plate" in made.entries:
            entries["plate"] = made.entries["plate"]
        return entries, places

    # Brackets ------------------------------------------------------------------------------

    def _add_bracketed(self, rows: Rows, node: Node) -> None:
        bracket = mapping(node)
        every = number_at(bracket, "every", 0)
        if every < 1:
            raise CannotLayOut
        always = self.written(bracket.entries.get("lines"))
        turns = self.written(bracket.entries.get("in_turn"))
        if not always and not turns:
            raise wrong(bracket, "a bracket holds no lines",
                        "write lines: or in_turn: with the controls")  # fmt: skip
        opens = bracket.entries.get("opens")
        number = 0

        def close() -> None:
            nonlocal number
            self.add(always)
            if turns:
                self.add([turns[number % len(turns)]])
            number += 1

        self.problems += rows.problems
        if not rows.lines:
            raise CannotLayOut
        if not isinstance(opens, Scalar) or opens.value is not False:
            close()
        held = 0
        for index, group in groups(rows.lines):
            size = sum(injections(line) for line in group)
            if held and held + size > every:
                close()
                held = 0
            for k, line in enumerate(group):
                at = len(self.lines)
                for key in line.entries:
                    problem = rows.broken.get((index + k, key))
                    if problem is not None:
                        self.broken[(at, key)] = problem
                self.add([line])
            held += size
        close()
