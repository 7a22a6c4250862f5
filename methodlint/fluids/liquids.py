"""Liquids that are pumped, injected and washed with: find one by any of its usual names."""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping
from types import MappingProxyType

from methodlint.fluids import (
    liquid_data_alcohols,
    liquid_data_aprotic,
    liquid_data_ethers,
    liquid_data_hydrocarbons,
    liquid_data_polar,
)
from methodlint.fluids.liquid_record import Liquid

__all__ = ["LIQUIDS", "Liquid", "find_liquid", "normalised_name"]

_SEPARATORS = re.compile(r"[\s\-_,'’‐‑–]+")

#: Every liquid by its name, in a fixed order.
LIQUIDS: Mapping[str, Liquid] = MappingProxyType(
    {
        liquid.name: liquid
        for table in (
            liquid_data_alcohols,
            liquid_data_hydrocarbons,
            liquid_data_ethers,
            liquid_data_aprotic,
            liquid_data_polar,
        )
        for liquid in table.LIQUIDS
    }
)


@functools.lru_cache(maxsize=4096)
def normalised_name(text: str) -> str:
    """Name without case, spaces, hyphens, commas and apostrophes."""
    return _SEPARATORS.sub("", text).casefold()


def _index() -> dict[str, Liquid]:
    index: dict[str, Liquid] = {}
    for liquid in LIQUIDS.values():
        for name in (liquid.name, *liquid.synonyms, liquid.cas):
            other = index.setdefault(normalised_name(name), liquid)
            if other is not liquid:
                raise ValueError(f"{name!r} means both {other.name} and {liquid.name}")
    return index


_BY_NAME = _index()


def find_liquid(text: str) -> Liquid | None:
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
