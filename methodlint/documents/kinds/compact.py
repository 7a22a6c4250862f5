"""What a sequence may hold instead of written lines: a table, blocks, a scouting matrix.

Lines in here are laid out before they are validated, so a line's own keys are looked at where
they end up, with the place where they were written.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from methodlint.documents.kinds.base import Count, Name, Part, PlaceName, Ratio, described
from methodlint.documents.kinds.method import AnyModifier
from methodlint.documents.quantities.quantity import Concentration, Duration, Temperature

LineKeys = dict[str, Any]
"""Keys of a line, validated once the lines are laid out."""

LineOrName = Name | LineKeys
"""A line, the name of one under `named_lines`, or `{use: name}` with keys that differ."""


def _one_or_many(value: Any) -> Any:
    return (value,) if isinstance(value, (str, dict)) else value


Lines = Annotated[tuple[LineOrName, ...], BeforeValidator(_one_or_many)]


class TablePart(Part):
    """A table of lines, and how to read it."""

    file: Name = Field(description="CSV text or workbook beside the sequence.")
    sheet: Name | None = described("Sheet of a workbook.")
    columns: dict[str, Name | None] = Field(
        default_factory=dict,
        description="Keys of a line by headers of the lab's own; null passes a column over.",
    )
    every_line: LineKeys = Field(
        default_factory=dict, description="Keys of every line whose cell is empty."
    )


def _table_from_text(value: Any) -> Any:
    """Read the short form `samples.csv` as `{file: samples.csv}`."""
    return {"file": value} if isinstance(value, str) else value


Table = Annotated[TablePart, BeforeValidator(_table_from_text)]


class Bracket(Part):
    """Lines that come back between samples."""

    every: Annotated[int, Field(ge=1, le=10_000, strict=True)] = Field(
        description="Samples injected between two brackets."
    )
    lines: Lines = described("All of them at every bracket.", ())
    in_turn: Lines = described("One of them at each bracket, in turn.", ())
    opens: bool = described("A bracket goes before the first sample too.", True)


class Calibrators(Part):
    """Calibrators, one line for each level."""

    levels: tuple[Ratio, ...] = ()
    concentrations: tuple[Concentration, ...] = ()
    sample: Name = described("Name of each, with {n} or {level}.", "C{n}")
    plate: PlaceName | None = None
    wells: PlaceName | None = described("Range such as 'B1 to B6'.")
    order: Literal["ascending", "descending", "as written"] = "ascending"
    replicates: Annotated[int, Field(ge=1, le=100, strict=True)] = 1
    every_line: LineKeys = Field(default_factory=dict)


class Samples(Part):
    """Samples by a pattern or from a table."""

    table: Table | None = None
    sample: Name | None = described("Name of each, such as 'wine {n:03}'.")
    first: Count = described("Number of the first one.", 1)
    number: Annotated[int, Field(ge=1, le=10_000, strict=True)] | None = described(
        "How many; as many as there are wells if not said."
    )
    plate: PlaceName | None = None
    wells: PlaceName | None = described("Range such as 'A1 to F9'.")
    by: Literal["rows", "columns"] = "rows"
    replicates: Annotated[int, Field(ge=1, le=100, strict=True)] = 1
    every_line: LineKeys = Field(default_factory=dict)


class Block(Part):
    """One block: lines, a table, calibrators or samples."""

    lines: Lines = ()
    table: Table | None = None
    calibrators: Calibrators | None = None
    blank_after_top: LineOrName | None = described("Line after the highest calibrator.")
    samples: Samples | None = None
    bracket: Bracket | None = None


class LeftOutPair(Part):
    """A pair that is left out of a scouting matrix on purpose."""

    column: Name
    modifier: Name = Field(description="Liquids as in 'methanol' or 'methanol + water'.")


class Scouting(Part):
    """Columns x modifiers x temperatures, each cell a run of its own."""

    base: Name = Field(description="Method that every cell is made from.")
    columns: tuple[Name, ...] = ()
    modifiers: tuple[AnyModifier, ...] = ()
    temperatures: tuple[Temperature, ...] = ()
    equilibration: Duration = Field(description="Before the first injection of every cell.")
    lines: Lines = Field(description="Injections of every cell.")
    before: Lines = ()
    after: Lines = ()
    leave_out: tuple[LeftOutPair, ...] = described("Pairs that are not run, on purpose.", ())
