"""Whether a bottle holds the liquid that is wanted, and both in words."""

from __future__ import annotations

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.quantities.format import number
from methodlint.fluids.additives.known import additive_name, find_additive, same_level
from methodlint.rehearsal.plan.run_plan import components_of

__all__ = ["additives_of", "lasting", "liquid_difference", "liquid_words", "same_liquids"]

_SHARES = 0.02
"""Parts of a blend within 2 % of the whole count as the same; common practice, no source."""


def liquid_words(liquid: Liquid) -> str:
    """A liquid in words: ``methanol + 0.1 % diethylamine``."""
    parts = components_of(liquid)
    alone = len(parts) == 1
    names = [name if alone else f"{number(100 * share, 3)} % {name}" for name, share in parts]
    for level in liquid.additives:
        name = additive_name(level.additive)
        names.append(f"{level.level.text} {name}" if level.level else name)
    return " + ".join(names) or "nothing named"


def additives_of(liquid: Liquid) -> dict[str, str]:
    """Additives by their standard names, with the level as written; empty if none is written."""
    return {
        additive_name(level.additive): level.level.text if level.level else ""
        for level in liquid.additives
    }


def lasting(names: set[str]) -> set[str]:
    """Those that stay behind on a column, in a line or in a source; not known counts as lasting."""
    known = {name: find_additive(name) for name in names}
    return {
        name
        for name, found in known.items()
        if found is None or found.persistent or not found.volatile
    }


def same_liquids(wanted: Liquid, held: Liquid) -> bool:
    """Whether both are of the same liquids in the same shares, additives left out."""
    return not _other_liquids(wanted, held)


def liquid_difference(wanted: Liquid, held: Liquid) -> str:
    """What differs between two liquids, in words; empty if they are the same."""
    other = _other_liquids(wanted, held)
    if other:
        return other
    mine, theirs = additives_of(wanted), additives_of(held)
    if mine.keys() != theirs.keys():
        return f"additive {', '.join(sorted(mine.keys() ^ theirs.keys()))} on one side only"
    for name, text in mine.items():
        if text and theirs[name] and same_level(text, theirs[name], name) is False:
            return f"another level of {name}"
    return ""


def _other_liquids(wanted: Liquid, held: Liquid) -> str:
    one, other = dict(components_of(wanted)), dict(components_of(held))
    if one and one.keys() != other.keys():
        return "another liquid"
    if any(abs(one[name] - other[name]) > _SHARES for name in one):
        return "other shares"
    return ""
