"""Small steps of laying blocks out: groups, repetitions, names, wells, and why it cannot be done."""

from __future__ import annotations

from collections.abc import Iterable

from methodlint.documents.blocks.patterns import BlockPatternWrong, filled_in, numbered, wells_of
from methodlint.documents.quantities.quantity import parse_quantity
from methodlint.documents.quantities.unit_table import UnitProblem
from methodlint.documents.text.nodes import Mapping, Node, Scalar
from methodlint.documents.text.places import Place
from methodlint.documents.text.problems import Problem


class CannotLayOut(Exception):
    """Lines cannot be made; the problem says why, or None where the schema will say it."""

    def __init__(self, problem: Problem | None = None) -> None:
        super().__init__()
        self.problem = problem


def wrong(
    node: Node, message: str, remedy: str, rule: str = "document.shape-wrong"
) -> CannotLayOut:
    """Say at a node why lines cannot be made."""
    return CannotLayOut(Problem(rule, "fault", ("blocks",), node.place, message, remedy))


def groups(lines: list[Mapping]) -> Iterable[tuple[int, list[Mapping]]]:
    """Group lines with their wanted repetitions, which stay within one bracket."""
    group: list[Mapping] = []
    start = 0
    for index, line in enumerate(lines):
        again = line.entries.get("replicate")
        if group and not (isinstance(again, Scalar) and again.value is True):
            yield start, group
            group, start = [], index
        group.append(line)
    if group:
        yield start, group


def injections(line: Mapping) -> int:
    """Injections of a line."""
    node = line.entries.get("count")
    value = node.value if isinstance(node, Scalar) else 1
    return value if isinstance(value, int) and value > 0 else 1


def replicates(line: Mapping, times: int) -> list[Mapping]:
    """Give a line and its wanted repetitions."""
    again = Mapping(
        {**line.entries, "replicate": Scalar(True, "true", True, line.place)},
        line.key_places,
        line.place,
    )
    return [line, *[again] * (times - 1)]


def mapping(node: Node) -> Mapping:
    """Take a node for a mapping."""
    if not isinstance(node, Mapping):
        raise CannotLayOut
    return node


def number_at(made: Mapping, key: str, default: int) -> int:
    """Whole number at a key."""
    node = made.entries.get(key)
    if node is None:
        return default
    value = node.value if isinstance(node, Scalar) else None
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value <= 1_000_000:
        raise CannotLayOut
    return value


def word(text: str, place: Place) -> Scalar:
    """Make a value of a text."""
    return Scalar(text, text, True, place)


def name_of(node: Node | None, place: Place, n: int, level: str, default: str) -> Scalar:
    """Fill the pattern of a name in."""
    text = node.text if isinstance(node, Scalar) else default
    try:
        return word(filled_in(text, n, level), node.place if node is not None else place)
    except BlockPatternWrong as problem:
        raise wrong(node or word(text, place), problem.message, problem.remedy) from None


def has_number(pattern: Scalar) -> bool:
    """Whether a pattern gives each number a name of its own."""
    try:
        return numbered(pattern.text)
    except BlockPatternWrong as problem:
        raise wrong(pattern, problem.message, problem.remedy) from None


def wells_at(made: Mapping, *, by_columns: bool) -> list[Scalar] | None:
    """Wells of a block; None if it names none."""
    node = made.entries.get("wells")
    if node is None:
        return None
    if not isinstance(node, Scalar):
        raise CannotLayOut
    try:
        return [word(well, node.place) for well in wells_of(node.text, by_columns=by_columns)]
    except BlockPatternWrong as problem:
        raise wrong(node, problem.message, problem.remedy) from None


def as_many(made: Mapping, wells: list[Scalar] | None, count: int, what: str) -> None:
    """Every line has a well of its own, and no well is forgotten in a list of another length."""
    if wells is None or count <= len(wells):
        return
    raise wrong(made.entries["wells"], f"{count} {what} do not fit into {len(wells)} wells",
                "write a larger range, or make a second block on another plate")  # fmt: skip


def figure(amount: Scalar) -> float:
    """Number of a level, or concentration in the unit of its dimension."""
    if isinstance(amount.value, (int, float)) and not isinstance(amount.value, bool):
        return float(amount.value)
    try:
        dimensions = ("amount concentration", "mass concentration", "share")
        return parse_quantity(amount.value, dimensions).si
    except UnitProblem:
        raise CannotLayOut from None
