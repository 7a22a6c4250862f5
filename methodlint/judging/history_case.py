"""A logbook with what was predicted for its entries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from methodlint.documents.kinds.column import Column
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.judging.case import Case
from methodlint.judging.finding import At
from methodlint.rehearsal.history.history import History


@dataclass
class HistoryCase(Case):
    """A logbook, reviewed.

    Attributes
    ----------
    history
        What its readings tell.
    columns
        Column cards by the names that entries use.
    """

    history: History = None  # type: ignore[assignment]
    columns: Mapping[str, Loaded[Column]] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """What the case is about."""
        return self.documents["logbook"].path

    def card(self, column: str) -> Column | None:
        """The typed card of a column; None if there is none."""
        loaded = self.columns.get(column)
        return loaded.model if loaded is not None else None

    def entry_at(self, entry: int, key: str = "") -> At:
        """Point at an entry of the logbook, or at one of its keys."""
        path: Path = ("entries", entry, key) if key else ("entries", entry)
        return At(self.documents["logbook"], path)
