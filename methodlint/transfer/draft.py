"""Collects entries and the edits of the text that go with them."""

from __future__ import annotations

from dataclasses import dataclass, field

from methodlint.documents.quantities.format import number, show
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.quantities.unit_table import UNITS, from_si
from methodlint.documents.text.places import Path
from methodlint.transfer.entry import Entry, How
from methodlint.transfer.text_edits import TextEdits

__all__ = ["Draft", "in_unit_of"]

_SAME = 1e-7


def in_unit_of(quantity: Quantity, si: float, digits: int = 4, decimals: int | None = None) -> str:
    """Write an SI figure in the unit that a document uses for this value."""
    unit = UNITS[quantity.dimension][quantity.unit]
    symbol = quantity.unit
    if quantity.dimension == "pressure":
        # What was read as gauge has become absolute; plain says so.
        symbol = symbol.removesuffix("(g)").removesuffix("g").rstrip()
        unit = UNITS["pressure"][symbol]
    value = from_si(si, unit)
    figure = number(value, digits) if decimals is None else f"{value:.{decimals}f}"
    if decimals is not None and "." in figure:
        figure = figure.rstrip("0").rstrip(".")
    return f"{figure} {symbol}"


@dataclass
class Draft:
    """The proposed document in the making."""

    edits: TextEdits
    entries: list[Entry] = field(default_factory=list)
    changed: int = 0
    inserted: int | None = None
    removed: int | None = None

    def quantity(
        self,
        item: str,
        path: Path,
        quantity: Quantity,
        si: float,
        *,
        how: How = "derived",
        limit: str = "",
        why: str = "",
        geometry: str = "",
        digits: int = 4,
        decimals: int | None = None,
        note: str = "",
    ) -> None:
        """A quantity of the method; it is written only if it differs from the source's."""
        if abs(si - quantity.si) <= _SAME * max(abs(si), abs(quantity.si)):
            kept: How = "copied" if how != "limited by" else how
            self.entries.append(
                Entry(item, path, quantity.text, geometry, quantity.text, kept, limit, why)
            )
            return
        text = in_unit_of(quantity, si, digits, decimals)
        self.entries.append(Entry(item, path, quantity.text, geometry, text, how, limit, why))
        head = f"limited by {limit}" if how == "limited by" else how
        self.edits.set(path, text, f"{head}: {note or why}")
        self.changed += 1

    def insert_row(self, index: int, text: str) -> None:
        """Put a row into the programme, in front of the row of this index."""
        self.edits.insert_item(("programme", index), text)
        self.inserted = index
        self.changed += 1

    def remove_row(self, index: int, why: str) -> None:
        """Take a row of the programme out."""
        self.edits.comment_out(("programme", index), why)
        self.removed = index
        self.changed += 1

    def new_path(self, path: Path) -> Path | None:
        """Where a value stands in the new document; None if it does not."""
        if path[0] != "programme" or len(path) < 2 or not isinstance(path[1], int):
            return path
        index = path[1]
        if index == self.removed:
            return None
        moved = index + (self.inserted is not None and index >= self.inserted)
        moved -= self.removed is not None and index > self.removed
        return ("programme", moved, *path[2:])

    def figure(
        self, item: str, source: str, geometry: str, proposed: str, how: How, why: str
    ) -> None:
        """A figure that is shown and stands nowhere in the method."""
        self.entries.append(Entry(item, None, source, geometry, proposed, how, "", why))

    def kept(self, item: str, path: Path, text: str, why: str = "") -> None:
        """A value that is carried over as it is."""
        self.entries.append(Entry(item, path, text, text, text, "copied", "", why))

    def words(
        self, item: str, path: Path, source: str, text: str, how: How, why: str, note: str = ""
    ) -> None:
        """A name or a list of names."""
        self.entries.append(Entry(item, path, source, "", text, how, "", why))
        if source != text:
            self.edits.set(path, text, f"{how}: {note or why}")
            self.changed += 1


def minutes(seconds: float, decimals: int = 2) -> str:
    """Write a time in minutes."""
    return show(round(seconds / 60.0, decimals) * 60.0, "time", "min")
