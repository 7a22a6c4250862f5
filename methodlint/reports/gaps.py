"""What is missing for checks that were not made: each card is asked once for all that it lacks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

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
            why = f" ({len(self.reasons)} reasons, told with --notes)"
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


def gaps_of(items: Iterable[NotChecked]) -> list[CardGap]:
    """Group what was not checked, those first that could have found a stop.

    A card is one entry, with all that it lacks; so are cards that lack the same. Where many
    documents of a kind each lack something else, an entry is what is missing instead: whichever
    takes fewer entries. Cards that a document does not name are an entry of their own.
    """
    by_kind: dict[str, list[NotChecked]] = {}
    for item in sorted(items, key=lambda item: not item.can_stop):
        by_kind.setdefault(item.at.document.kind, []).append(item)
    gaps: list[CardGap] = []
    for of_kind in by_kind.values():
        cards: dict[tuple[str, bool], list[NotChecked]] = {}
        figures: dict[tuple[object, ...], list[NotChecked]] = {}
        for item in of_kind:
            cards.setdefault((item.at.document.file, _names_no_card(item)), []).append(item)
            figures.setdefault((*_keys(item), _names_no_card(item)), []).append(item)
        alike: dict[frozenset[tuple[str, ...]], list[NotChecked]] = {}
        for of_card in cards.values():
            alike.setdefault(frozenset(map(_keys, of_card)), []).extend(of_card)
        groups = min(alike.values(), figures.values(), key=len)
        gaps += map(_gap, groups)
    return sorted(gaps, key=lambda gap: (not gap.stops, gap.missing, gap.files))


def _names_no_card(item: NotChecked) -> bool:
    """Whether all that it lacks stands in cards that its document does not name."""
    return bool(item.asks) and all(ask.refers for ask in item.asks)


def _keys(item: NotChecked) -> tuple[str, ...]:
    """What to supply, as keys of the documents."""
    return tuple(dict.fromkeys(_key(ask, item) for ask in item.asks)) or item.missing


def _key(ask: Ask, item: NotChecked) -> str:
    """The key, with its document where that is another one than the rest stands in."""
    own = ask.file == item.at.document.file
    return ask.what if own else f"{ask.what} in {ask.file}"


def _gap(items: Iterable[NotChecked]) -> CardGap:
    known = list(items)
    stops = dict.fromkeys(item.rule for item in known if item.can_stop)
    others = dict.fromkeys(item.rule for item in known if not item.can_stop)
    keys = dict.fromkeys(name for item in known for name in _keys(item))
    refers = all(map(_names_no_card, known))
    if not refers:
        # Cards that are not named are asked for by themselves.
        named = {ask.what for item in known for ask in item.asks if ask.refers}
        keys = {key: None for key in keys if key not in named} or keys
    return CardGap(
        missing=tuple(sorted(keys) if refers else keys),
        files=tuple(dict.fromkeys(item.at.document.file for item in known)),
        reasons=tuple(dict.fromkeys(item.reason for item in known if item.reason)),
        stops=tuple(sorted(stops)),
        others=tuple(sorted(others)),
        checks=len(known),
    )
