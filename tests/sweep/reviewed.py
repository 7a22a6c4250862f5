"""The table of variants that may come out clear, each with the reason that was reviewed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.sweep.edits import Edit

_TABLE = Path(__file__).resolve().parent / "reviewed.tsv"


@dataclass(frozen=True)
class Row:
    """One row: places, variants and why they may be clear."""

    place: str
    variants: tuple[str, ...]
    reason: str

    def matches(self, edit: Edit) -> bool:
        """Whether an edit is one of this row's."""
        pattern = re.escape(self.place).replace(r"\*", ".*").replace(r"\[\]", r"\[\d+\]")
        return edit.variant in self.variants and re.fullmatch(pattern, edit.place) is not None


@cache
def rows() -> tuple[Row, ...]:
    """All rows of the table."""
    found = []
    for line in _TABLE.read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            place, variants, reason = line.split("\t")
            found.append(Row(place, tuple(variants.split()), reason))
    return tuple(found)


def row_of(edit: Edit) -> Row | None:
    """The first row that excuses an edit."""
    return next((row for row in rows() if row.matches(edit)), None)
