"""From a scouting matrix to the lines of a sequence and a method for each cell."""

from __future__ import annotations

import copy
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import product
from typing import Any, cast

from methodlint.documents.blocks.layout import BlockLayout
from methodlint.documents.blocks.pieces import CannotLayOut
from methodlint.documents.kinds.compact import Scouting
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.loading import Loaded, model_class, own_keys, validated
from methodlint.documents.tables.lines import Rows
from methodlint.documents.text.nodes import Mapping, Node, Scalar, SequenceNode
from methodlint.documents.text.places import Path, Place
from methodlint.documents.text.problems import Problem
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.run_plan import components_of
from methodlint.rehearsal.plan.scouting import LeftOut, MatrixCell, in_order, why_not

Refer = Callable[[str, str, Loaded, Path], Loaded | Missing]

MOST_CELLS = 1_000


@dataclass(frozen=True, slots=True)
class ScoutedLines:
    """A sequence whose scouting matrix is laid out.

    Attributes
    ----------
    sequence
        The sequence with its lines.
    methods
        A method for each cell by the name that its lines use.
    left_out
        Cells that are not run.
    apart
        Cells that need a flush before them, by their names.
    """

    sequence: Loaded[SequenceModel]
    methods: dict[str, Loaded[Method]]
    left_out: tuple[LeftOut, ...] = ()
    apart: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()


def scouted(sequence: Loaded[SequenceModel], refer: Refer) -> ScoutedLines | None:
    """Lay a scouting matrix out.

    Parameters
    ----------
    sequence
        A sequence.
    refer
        Follows a reference of the sequence and reports it if it leads nowhere.

    Returns
    -------
    Scouted or None
        None if the sequence has no matrix.
    """
    matrix = sequence.model.scouting
    if matrix is None:
        return None
    if "lines" in sequence.data or ("lines",) in sequence.broken:
        return _refused(
            sequence,
            "the lines of this sequence come from scouting and from lines, a table or blocks",
            "write lines around the matrix under scouting: before: and after:",
        )
    most = len(matrix.columns or (0,)) * len(matrix.modifiers or (0,))
    if most * len(matrix.temperatures or (0,)) > MOST_CELLS:
        return _refused(sequence, f"more than {MOST_CELLS} cells; the limit for a matrix is that",
                        "divide the matrix", "document.too-large")  # fmt: skip
    base = refer("method", matrix.base, sequence, ("scouting", "base"))
    cards = [
        refer("column", name, sequence, ("scouting", "columns", n))
        for n, name in enumerate(matrix.columns)
    ]
    if isinstance(base, Missing) or any(isinstance(card, Missing) for card in cards):
        return ScoutedLines(sequence, {})
    plan = _Plan(sequence, matrix, base, [card for card in cards if isinstance(card, Loaded)])
    return plan.laid_out(refer)


def _refused(
    sequence: Loaded[SequenceModel], message: str, remedy: str, rule: str = "document.shape-wrong"
) -> ScoutedLines:
    path: Path = ("scouting",)
    place = sequence.place(path, key=True)
    return ScoutedLines(
        sequence, {}, problems=(Problem(rule, "fault", path, place, message, remedy),)
    )


@dataclass
class _Plan:
    sequence: Loaded[SequenceModel]
    matrix: Scouting
    base: Loaded[Method]
    cards: list[Loaded]

    def laid_out(self, refer: Refer) -> ScoutedLines:
        allowed: list[MatrixCell] = []
        left_out: list[LeftOut] = []
        for cell in self._cells():
            reason = self._why_not(cell, refer)
            if reason is None:
                allowed.append(cell)
            else:
                left_out.append(LeftOut(cell, *reason))
        temperatures = [temperature.si for temperature in self.matrix.temperatures] or [0.0]
        visits, apart = in_order(allowed, temperatures)
        methods = {self.name(cell): self._method(cell) for cell in allowed}
        try:
            lines = self._lines([(visit.cell, visit.injects) for visit in visits])
        except CannotLayOut as wrong:
            found = (wrong.problem,) if wrong.problem is not None else ()
            return ScoutedLines(self.sequence, {}, problems=found)
        return ScoutedLines(
            self._with_lines(lines),
            methods,
            tuple(left_out),
            tuple(self.name(cell) for cell in apart),
        )

    def _cells(self) -> list[MatrixCell]:
        matrix = self.matrix
        counts = (len(matrix.temperatures), len(matrix.modifiers), len(matrix.columns))
        skipped = {(skip.column, skip.modifier) for skip in matrix.leave_out}
        cells = [MatrixCell(*n) for n in product(*(range(max(count, 1)) for count in counts))]
        return [c for c in cells if (self._column_name(c), self.liquid(c)) not in skipped]

    def _column_name(self, cell: MatrixCell) -> str:
        return self.matrix.columns[cell.column] if self.matrix.columns else ""

    def liquid(self, cell: MatrixCell) -> str:
        """Modifier of a cell in words; empty if it is the base method's."""
        if not self.matrix.modifiers:
            return ""
        modifier = self.matrix.modifiers[cell.modifier]
        parts = [name for name, _ in components_of(modifier)]
        parts += [level.additive for level in modifier.additives]
        return " + ".join(parts)

    def name(self, cell: MatrixCell) -> str:
        """Name of a cell, which its lines use as the name of their method."""
        words = [self._column_name(cell), self.liquid(cell)]
        if self.matrix.temperatures:
            oven = self.matrix.temperatures[cell.temperature].si - 273.15
            words.append(f"{round(oven, 6):g} degC")
        return ", ".join(word for word in words if word) or self.base.name

    def _why_not(self, cell: MatrixCell, refer: Refer) -> tuple[str, bool] | None:
        model: Method = self.base.model
        modifier = model.mobile_phase.modifier if model.mobile_phase is not None else None
        if self.matrix.modifiers:
            modifier = self.matrix.modifiers[cell.modifier]
        oven = model.oven_temperature.si if model.oven_temperature is not None else None
        if self.matrix.temperatures:
            oven = self.matrix.temperatures[cell.temperature].si
        for card in [self.cards[cell.column]] if self.cards else self._own_columns(refer):
            reason = why_not(card.model, card.name, modifier, oven)
            if reason is not None:
                return reason
        return None

    def _own_columns(self, refer: Refer) -> list[Loaded]:
        """Columns of the base method, where the matrix names none."""
        names = self.base.model.column
        many = isinstance(names, tuple)
        found = []
        for n, name in enumerate(names if isinstance(names, tuple) else (names,)):
            path: Path = ("column", n) if many else ("column",)
            card = refer("column", name, self.base, path) if name is not None else None
            if isinstance(card, Loaded):
                found.append(card)
        return found

    # Methods -------------------------------------------------------------------------------

    def _method(self, cell: MatrixCell) -> Loaded:
        """Make the method of a cell; what the matrix sets keeps its place in the sequence."""
        base, matrix = self.base, self.matrix
        root = cast(Mapping, base.read.root)
        entries, places = dict(root.entries), dict(root.key_places)
        data = copy.deepcopy(base.data)
        broken = dict(base.read.broken)

        def put(key: str, kind: str, number: int) -> None:
            path: Path = ("scouting", kind, number)
            entries[key] = in_file(cast(Node, self.sequence.read.node(path)), self.sequence.file)
            places[key] = entries[key].place
            data[key] = copy.deepcopy(self.sequence.data["scouting"][kind][number])
            for gone in [path for path in broken if path[:1] == (key,)]:
                del broken[gone]

        if matrix.columns:
            put("column", "columns", cell.column)
        if matrix.temperatures:
            put("oven_temperature", "temperatures", cell.temperature)
        if matrix.modifiers:
            phase = entries.get("mobile_phase")
            share = dict(phase.entries) if isinstance(phase, Mapping) else {}
            keys = dict(phase.key_places) if isinstance(phase, Mapping) else {}
            node = self.sequence.read.node(("scouting", "modifiers", cell.modifier))
            share["modifier"] = in_file(cast(Node, node), self.sequence.file)
            keys["modifier"] = share["modifier"].place
            entries["mobile_phase"] = Mapping(
                share, keys, phase.place if isinstance(phase, Mapping) else keys["modifier"]
            )
            places.setdefault("mobile_phase", keys["modifier"])
            data.setdefault("mobile_phase", {})["modifier"] = copy.deepcopy(
                self.sequence.data["scouting"]["modifiers"][cell.modifier]
            )
        read = replace(base.read, root=Mapping(entries, places, root.place), broken=broken)
        name = self.name(cell)
        model, problems, more = validated(model_class("method"), data, read)
        return Loaded(
            name=name,
            path=f"{base.path} ({name})",
            kind="method",
            model=model,
            data=data,
            read=read,
            problems=tuple(problems),
            broken={**broken, **more},
            made_from=base.path,
        )

    # Lines ---------------------------------------------------------------------------------

    def _lines(self, visits: list[tuple[MatrixCell, bool]]) -> list[Mapping]:
        node = cast(Mapping, self.sequence.read.node(("scouting",)))
        named = self.sequence.read.node(("named_lines",))

        def no_table(_: Node, __: dict[str, tuple[Node, Place]]) -> Rows:
            raise CannotLayOut

        layout = BlockLayout(named if isinstance(named, Mapping) else None, no_table)
        names = [self.name(cell) for cell, _ in visits]
        first, last = (names[0], names[-1]) if names else ("", "")
        layout.add(_with_method(line, first) for line in layout.written(node.entries.get("before")))
        each = layout.written(node.entries.get("lines"))
        duration = node.entries["equilibration"]
        kind = Scalar("equilibration", "equilibration", True, duration.place)
        for (cell, injects), name in zip(visits, names, strict=True):
            place = self._place(cell)
            settle = {"kind": kind, "duration": duration}
            layout.add([_with_method(Mapping(settle, {}, place), name)])
            if injects:
                layout.add(_with_method(line, name) for line in each)
        layout.add(_with_method(line, last) for line in layout.written(node.entries.get("after")))
        return layout.lines

    def _place(self, cell: MatrixCell) -> Place:
        """Where a cell is shown: at its modifier, else at its column or temperature."""
        for kind, number in (
            ("modifiers", cell.modifier),
            ("columns", cell.column),
            ("temperatures", cell.temperature),
        ):
            if getattr(self.matrix, kind):
                return self.sequence.place(("scouting", kind, number))
        return self.sequence.place(("scouting",))

    def _with_lines(self, lines: list[Mapping]) -> Loaded:
        sequence = self.sequence
        root = cast(Mapping, sequence.read.root)
        place = root.key_places["scouting"]
        new = Mapping(
            {**root.entries, "lines": SequenceNode(list(lines), place)},
            {**root.key_places, "lines": place},
            root.place,
        )
        read = replace(sequence.read, root=new)
        data = {**sequence.data, "lines": own_keys(read.plain())["lines"]}
        model: Any
        model, problems, broken = validated(model_class("sequence"), data, read)
        return replace(
            sequence,
            read=read,
            data=data,
            model=model,
            problems=(*sequence.problems, *(p for p in problems if p.path[:1] == ("lines",))),
            broken={**sequence.broken, **broken},
        )


def _with_method(line: Mapping, name: str) -> Mapping:
    if "method" in line.entries or not name:
        return line
    entries = {**line.entries, "method": Scalar(name, name, True, line.place)}
    return Mapping(entries, line.key_places, line.place)


def in_file(node: Node, file: str) -> Node:
    """Copy a node so that its places name their file."""

    def place(old: Place) -> Place:
        return old if old.file else old._replace(file=file)

    if isinstance(node, Scalar):
        return Scalar(node.value, node.text, node.quoted, place(node.place))
    if isinstance(node, Mapping):
        return Mapping(
            {key: in_file(below, file) for key, below in node.entries.items()},
            {key: place(old) for key, old in node.key_places.items()},
            place(node.place),
        )
    return SequenceNode([in_file(below, file) for below in node.items], place(node.place))
