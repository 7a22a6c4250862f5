"""How much of an additive a column bears, and levels made comparable."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from methodlint.documents.kinds.base import AdditiveLevel
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.method import Method
from methodlint.fluids.additives.known import Additive, concentration, find_additive
from methodlint.rehearsal.plan.phase_tolerance import COATED, USUAL_ADDITIVE_SHARE

#: Share of a modifier by volume from which an amine is much for bare silica, and any other amine
#: or acid for a coated polysaccharide (common practice, no source).
_USUAL_SHARE = 0.005


@dataclass(frozen=True, slots=True)
class ToleratedAdditive:
    """Greatest level of an additive on a column.

    Attributes
    ----------
    additive
        Name of the additive.
    level
        [mol/m3], which is mM; 0 if the column bears none of it.
    of
        Whether the level refers to the modifier or to the whole mobile phase.
    words, authority
        The limit as written, and who says so.
    grade
        "fault" where the limit is the card's or that of this very additive, "caution" where it is
        taken over from its kind.
    """

    additive: str
    level: float
    of: Literal["modifier", "total"]
    words: str
    authority: str
    grade: Literal["fault", "caution"]


def additive_limit(card: Column, additive: str) -> ToleratedAdditive | None:
    """Tell how much of an additive a column bears.

    Parameters
    ----------
    card
        The column card; a limit of it may name an additive or a kind ("amine", "acid").
    additive
        Name or synonym.

    Returns
    -------
    AdditiveLimit or None
        None if neither card nor usage sets a limit.
    """
    known = find_additive(additive)
    for entry in card.additive_limits:
        if not _covers(entry.additive, additive, known):
            continue
        level = concentration(entry.level.text, additive) if entry.level is not None else 0.0
        words = f"{entry.level.text}" if entry.level is not None else "none of it"
        if level is not None:
            return ToleratedAdditive(additive, level, entry.of, words, "the column card", "fault")
    if known is None:
        return None
    usual = USUAL_ADDITIVE_SHARE.get(known.name) if card.phase == COATED else None
    grade: Literal["fault", "caution"] = "fault"
    kinds = {COATED: ("amine", "acid"), "bare silica": ("amine",)}.get(card.phase or "", ())
    if usual is None and known.kind in kinds:
        usual, grade = _USUAL_SHARE, "caution"
    if usual is None:
        return None
    words = f"{100.0 * usual:g} % v/v"
    level = concentration(words, known.name)
    if level is None:
        return None
    return ToleratedAdditive(additive, level, "modifier", words, f"usual for {card.phase}", grade)


def _covers(written: str, additive: str, known: Additive | None) -> bool:
    other = find_additive(written)
    if other is not None and known is not None:
        return other is known
    plain = written.strip().casefold()
    return plain == additive.strip().casefold() or (known is not None and plain == known.kind)


def level_in(entry: AdditiveLevel, limit: ToleratedAdditive, share: float | None) -> float | None:
    """Level of an additive on the basis of a limit [mol/m3].

    Parameters
    ----------
    entry
        The additive as written.
    limit
        What it is compared with.
    share
        Greatest volume share of the liquid in the mobile phase; None if not known.

    Returns
    -------
    float or None
        None if the level is not written or cannot be converted.
    """
    level = concentration(entry.level.text, entry.additive) if entry.level is not None else None
    if level is None or entry.of == limit.of:
        return level
    if share is None or share <= 0.0:
        return None
    return level * share if limit.of == "total" else level / share


def highest_share(method: Method) -> float | None:
    """Greatest modifier share of a method; None if none is written."""
    shares = [row.modifier_share.si for row in method.programme if row.modifier_share is not None]
    if method.mobile_phase is not None and method.mobile_phase.modifier_share is not None:
        shares.append(method.mobile_phase.modifier_share.si)
    return max(shares, default=None)
