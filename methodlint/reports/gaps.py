"""What is missing for checks that were not made: each card is asked once for all that it lacks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from methodlint.documents.quantities.format import counted
from methodlint.judging.finding import Ask, NotChecked

__all__ = ["CardGap", "gaps_of"]

_MOST_NAMED = 4


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
    checks
        Number of checks that wait for it.
    """

    missing: tuple[str, ...]
    files: tuple[str, ...]
    reasons: tuple[str, ...]
    stops: tuple[str, ...]
    others: tuple[str, ...]
    checks: int

    def what(self, *, all_named: bool = False) -> str:
        """What to supply, where and for how much, in words."""
        first, last = self.missing[:-1], self.missing[-1]
        keys = f"{', '.join(f'`{key}`' for key in first)} and `{last}`" if first else f"`{last}`"
        why = f" ({'; '.join(self.reasons)})" if self.reasons else ""
        if self.reasons[1:] and not all_named:
            why = f" ({len(self.reasons)} reasons, listed with --notes)"
        return f"{keys} in {', '.join(self.files)} for {counted(self.checks, 'more check')}{why}"

    def rules(self, *, all_named: bool = False) -> str:
        """What it is needed for, in words; many that could not stop a run are counted."""
        others = ", ".join(self.others)
        if len(self.others) > _MOST_NAMED and not all_named:
            others = f"{len(self.others)} others, named with --notes"
        if not self.stops:
            return others
        stops = f"could stop: {', '.join(self.stops)}"
        return f"{stops}; also {others}" if others else stops


@dataclass
class _Card:
    """What one document is asked for, and the checks that are told with it."""

    file: str
    kind: str
    keys: dict[str, None] = field(default_factory=dict)
    items: dict[NotChecked, None] = field(default_factory=dict)
    needed_by: dict[NotChecked, None] = field(default_factory=dict)


def gaps_of(items: Iterable[NotChecked]) -> list[CardGap]:
    """Group what was not checked, those first that could have found a stop.

    A document is one entry, with all that it lacks; so are documents that lack the same. A check
    that lacks something in several of them is told with the first. Where many documents of a kind
    each lack something else, an entry is what is missing instead: whichever takes fewer entries.
    Cards that a document does not name are an entry of their own.
    """
    cards = _cards(sorted(items, key=lambda item: not item.can_stop))
    by_kind: dict[str, list[_Card]] = {}
    for card in cards:
        by_kind.setdefault(card.kind, []).append(card)
    gaps: list[CardGap] = []
    for of_kind in by_kind.values():
        alike: dict[frozenset[str], list[_Card]] = {}
        figures: dict[tuple[str, ...], list[_Card]] = {}
        for card in of_kind:
            alike.setdefault(frozenset(card.keys), []).append(card)
            for item in card.items or card.needed_by:
                own = tuple(a.what for a in _asks(item) if a.file == card.file)
                part = _Card(card.file, card.kind, dict.fromkeys(own), {item: None})
                figures.setdefault(own, []).append(part)
        groups = min(alike.values(), figures.values(), key=len)
        gaps += map(_gap, groups)
    return sorted(gaps, key=lambda gap: (not gap.stops, gap.missing, gap.files))


def _cards(items: Iterable[NotChecked]) -> list[_Card]:
    cards: dict[tuple[str, bool], _Card] = {}
    for item in items:
        asks = _asks(item)
        refers = all(ask.refers for ask in asks)
        # What stands in cards that are not named is asked for with them.
        for number, ask in enumerate(a for a in asks if refers or not a.refers):
            kind = item.at.document.kind if ask.file == item.at.file else ""
            card = cards.setdefault((ask.file, refers), _Card(ask.file, kind))
            card.kind = card.kind or kind
            card.keys[ask.what] = None
            card.needed_by[item] = None
            if number == 0:
                card.items[item] = None
    return list(cards.values())


def _asks(item: NotChecked) -> tuple[Ask, ...]:
    return item.asks or tuple(Ask(item.at.file, where) for where in item.missing)


def _gap(cards: Iterable[_Card]) -> CardGap:
    known = list(cards)
    told = [item for card in known for item in card.items or card.needed_by]
    stops = {item.rule for item in told if item.can_stop}
    return CardGap(
        missing=tuple(dict.fromkeys(key for card in known for key in card.keys)),
        files=tuple(dict.fromkeys(card.file for card in known)),
        reasons=tuple(dict.fromkeys(item.reason for item in told if item.reason)),
        stops=tuple(sorted(stops)),
        others=tuple(sorted({item.rule for item in told} - stops)),
        checks=len(told),
    )
