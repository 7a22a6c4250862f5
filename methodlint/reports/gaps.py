"""What is missing for checks that were not made: each card is asked once for all that it lacks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from methodlint.judging.finding import NotChecked

__all__ = ["CardGap", "gaps_of"]


@dataclass(frozen=True, slots=True)
class CardGap:
    """What some documents lack.

    Attributes
    ----------
    missing
        What to supply, first what could have found a stop.
    files
        The documents.
    reasons
        Why it is needed, where that is not plain.
    stops, others
        Rules that were not checked: those that could have found a stop, and the others.
    """

    missing: tuple[str, ...]
    files: tuple[str, ...]
    reasons: tuple[str, ...]
    stops: tuple[str, ...]
    others: tuple[str, ...]

    @property
    def what(self) -> str:
        """What to supply and where, in words."""
        why = f" ({'; '.join(self.reasons)})" if self.reasons else ""
        return f"{', '.join(self.missing)} in {', '.join(self.files)}{why}"

    @property
    def rules(self) -> str:
        """What it is needed for, in words."""
        others = ", ".join(self.others)
        if not self.stops:
            return others
        stops = f"could stop: {', '.join(self.stops)}"
        return f"{stops}; also {others}" if others else stops


def gaps_of(items: Iterable[NotChecked]) -> list[CardGap]:
    """Group what was not checked, those first that could have found a stop.

    A card is one entry, with all that it lacks; so are cards that lack the same. Where many
    documents of a kind each lack something else, an entry is what is missing instead: whichever
    takes fewer entries.
    """
    by_kind: dict[str, list[NotChecked]] = {}
    for item in sorted(items, key=lambda item: not item.can_stop):
        by_kind.setdefault(item.at.document.kind, []).append(item)
    gaps: list[CardGap] = []
    for of_kind in by_kind.values():
        cards: dict[str, list[NotChecked]] = {}
        figures: dict[tuple[str, ...], list[NotChecked]] = {}
        for item in of_kind:
            cards.setdefault(item.at.document.file, []).append(item)
            figures.setdefault(item.missing, []).append(item)
        alike: dict[frozenset[tuple[str, ...]], list[NotChecked]] = {}
        for of_card in cards.values():
            alike.setdefault(frozenset(item.missing for item in of_card), []).extend(of_card)
        groups = min(alike.values(), figures.values(), key=len)
        gaps += map(_gap, groups)
    return sorted(gaps, key=lambda gap: (not gap.stops, gap.missing, gap.files))


def _gap(items: Iterable[NotChecked]) -> CardGap:
    known = list(items)
    stops = dict.fromkeys(item.rule for item in known if item.can_stop)
    others = dict.fromkeys(item.rule for item in known if not item.can_stop)
    return CardGap(
        missing=tuple(dict.fromkeys(name for item in known for name in item.missing)),
        files=tuple(dict.fromkeys(item.at.document.file for item in known)),
        reasons=tuple(dict.fromkeys(item.reason for item in known if item.reason)),
        stops=tuple(sorted(stops)),
        others=tuple(sorted(others)),
    )
