"""Liquids that are pumped, injected and washed with: find one by any of its usual names."""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping
from types import MappingProxyType

from methodlint.documents.text.names import nearest
from methodlint.fluids.liquids.liquid_record import LiquidRecord, liquid_record
from methodlint.fluids.liquids.liquid_tables import IDENTITY

__all__ = ["LIQUIDS", "LiquidRecord", "find_liquid", "normalised_name", "similar_liquids"]

_SEPARATORS = re.compile(r"[\s\-_,'’‐‑–]+")
_DIGITS = re.compile(r"\d+")
# One edit turns one short abbreviation into another.
_SHORTEST_TO_GUESS = 6
# Real liquids without data here, two letters from one that has some.
_NO_SLIPS = frozenset(["methylacetate"])

#: Every liquid by its name, in a fixed order.
LIQUIDS: Mapping[str, LiquidRecord] = MappingProxyType(
    {name: liquid_record(name) for name in IDENTITY}
)


@functools.lru_cache(maxsize=4096)
def normalised_name(text: str) -> str:
    """Name without case, spaces, hyphens, commas and apostrophes."""
    return _SEPARATORS.sub("", text).casefold()


def _index() -> dict[str, LiquidRecord]:
    index: dict[str, LiquidRecord] = {}
    for liquid in LIQUIDS.values():
        for name in (liquid.name, *liquid.synonyms, liquid.cas):
            other = index.setdefault(normalised_name(name), liquid)
            if other is not liquid:
                raise ValueError(f"{name!r} means both {other.name} and {liquid.name}")
    return index


_BY_NAME = _index()


def find_liquid(text: str) -> LiquidRecord | None:
    """Liquid of a name, synonym, abbreviation or registry number.

    Parameters
    ----------
    text : str
        E.g. ``"IPA"``, ``"2-Propanol"``, ``"tert butyl methyl ether"``; case, spaces and hyphens do
        not matter.

    Returns
    -------
    Liquid or None
        None if the name is not known; nothing is guessed from a part of a name.
    """
    return _BY_NAME.get(normalised_name(text))


def similar_liquids(text: str) -> tuple[str, ...]:
    """Names of liquids that a misspelt name probably means, the nearest first.

    Parameters
    ----------
    text : str
        What was written.

    Returns
    -------
    tuple of str
        Empty for a known liquid, for a short name, whose neighbours are other abbreviations, and
        where nothing is near.
    """
    plain = normalised_name(text)
    if plain in _BY_NAME or plain in _NO_SLIPS or len(plain) < _SHORTEST_TO_GUESS:
        return ()
    digits = _DIGITS.findall(plain)
    choices = [
        name
        for name in _BY_NAME
        # 2-butanol is no slip for 1-butanol.
        if len(name) >= _SHORTEST_TO_GUESS and _DIGITS.findall(name) == digits
    ]
    return tuple(dict.fromkeys(_BY_NAME[name].name for name, _ in nearest(plain, choices, limit=1)))
