"""Additives of a liquid: their concentration and what the liquid can hold of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from methodlint.documents.kinds.base import AdditiveLevel, Liquid
from methodlint.documents.memo import memoize_last
from methodlint.fluids.additives.known import Additive, concentration, find_additive
from methodlint.rehearsal.contacts.contact import Components
from methodlint.rehearsal.plan.run_plan import components_of

__all__ = [
    "SALTS",
    "Dissolved",
    "dissolved_in",
    "holds",
    "level_of",
    "salt_limit_in",
    "water_share",
]

SALTS = frozenset({"ammonium salt", "nonvolatile salt", "ion pair"})
"""Kinds of additive that are solids by themselves."""

ALCOHOL_SPREAD = 2.0
"""Practical limits of ammonium salts in ethanol and 2-propanol are quoted as spans of a factor of
two (10 to 20 mM, 5 to 10 mM); the table holds the lower ends. Common practice, no source."""

TRACE = 0.1
"""Concentration [mol/m3] that stands for "dissolves none" in a blend; estimate."""

_SPREAD_IN = frozenset({"ethanol", "1-propanol", "2-propanol"})


@dataclass(frozen=True, slots=True)
class Dissolved:
    """One additive of a liquid.

    Attributes
    ----------
    index
        Its number in the liquid's list of additives.
    name
        Name as written, or the standard one where it is known.
    additive
        What is known about it; None if the name is not known.
    concentration
        [mol/m3] of the liquid; None if no level is given or it cannot be converted.
    limit
        What the liquid holds [mol/m3]; None if not known, infinite if it mixes.
    upper_limit
        Upper end of the limit's span [mol/m3].
    limit_kind
        "table" for one liquid with or without water, "estimate" for a blend of several.
    """

    index: int
    name: str
    additive: Additive | None
    concentration: float | None
    limit: float | None
    upper_limit: float | None
    limit_kind: Literal["table", "estimate"]

    @property
    def salt(self) -> bool:
        """Whether it is a solid by itself that the liquid has to hold."""
        solid = self.additive is not None and self.additive.stock_density is None
        return self.additive is not None and self.additive.kind in SALTS and solid


def level_of(level: AdditiveLevel) -> float | None:
    """Concentration of an additive in its liquid [mol/m3]; None if it cannot be told.

    A level that refers to the whole mobile phase says nothing about the liquid by itself.
    """
    if level.level is None or level.of == "total":
        return None
    if level.level.dimension == "amount concentration":
        return level.level.si
    return concentration(level.level.text, level.additive)


@memoize_last
def water_share(liquid: Liquid) -> float:
    """Volume share of water in a liquid, water given as an additive included."""
    share = sum(part for name, part in components_of(liquid) if name == "water")
    for level in liquid.additives:
        known = find_additive(level.additive)
        if known is not None and known.kind == "water" and level.level is not None:
            share += level.level.si if level.level.dimension == "share" else 0.0
    return min(share, 1.0)


def dissolved_in(liquid: Liquid) -> tuple[Dissolved, ...]:
    """Look up every additive of a liquid, with the limit in that liquid.

    Parameters
    ----------
    liquid
        Bottle, modifier or makeup.

    Returns
    -------
    tuple of Dissolved
        In the order of the document.
    """
    found = []
    for index, level in enumerate(liquid.additives):
        known = find_additive(level.additive)
        lower, upper, kind = (None, None, "table") if known is None else holds(known, liquid)
        found.append(
            Dissolved(
                index=index,
                name=known.name if known else level.additive,
                additive=known,
                concentration=level_of(level),
                limit=lower,
                upper_limit=upper,
                limit_kind="estimate" if kind == "estimate" else "table",
            )
        )
    return tuple(found)


def holds(additive: Additive, liquid: Liquid) -> tuple[float | None, float | None, str]:
    """Limit of an additive in a liquid.

    Parameters
    ----------
    additive, liquid
        What is dissolved in what; for a blend of organic liquids the limits are averaged by
        volume, which is an estimate.

    Returns
    -------
    lower, upper : float or None
        Ends of the limit's span [mol/m3]; None where one of the liquids has none in the table.
    kind : str
        "table" or "estimate".
    """
    return _held(additive, components_of(liquid), water_share(liquid))


def _held(
    additive: Additive, parts: Components, water: float
) -> tuple[float | None, float | None, str]:
    organic = [(name, share) for name, share in parts if name != "water"]
    if not organic:
        limit = additive.solubility_limit("water", 0.0) if parts else None
        return limit, limit, "table"
    whole = sum(share for _, share in organic)
    if not whole > 0.0:
        return None, None, "table"
    parts_known: list[tuple[float, float, float]] = []
    for name, share in organic:
        limit = additive.solubility_limit(name, water)
        wet = additive.solubility_with_water.get(name, ())
        if limit is None and wet and wet[0][1] == 0.0 and water < wet[0][0]:
            # what does not dissolve with some water dissolves even less without
            limit = 0.0
        if limit is None and water > 0.0:
            # water helps a salt: the limit in the dry liquid is a lower bound
            dry = additive.solubility_limit(name, 0.0)
            limit = dry if dry else None
        if limit is None:
            return None, None, "table"
        spread = ALCOHOL_SPREAD if name in _SPREAD_IN and additive.kind == "ammonium salt" else 1.0
        parts_known.append((share / whole, limit, limit * spread))
    if len(parts_known) == 1:
        _, limit, upper = parts_known[0]
        return limit, upper, "table"
    return (
        _blended([(share, limit) for share, limit, _ in parts_known]),
        _blended([(share, upper) for share, _, upper in parts_known]),
        "estimate",
    )


def _blended(limits: Sequence[tuple[float, float]]) -> float:
    """Limit in a blend [mol/m3]: the logarithm goes by volume share.

    Source: S. H. Yalkowsky's log-linear model of cosolvency (unverified); a liquid that dissolves
    none counts as one that dissolves `TRACE`.
    """
    if any(math.isinf(limit) for _, limit in limits):
        return math.inf
    return math.exp(sum(share * math.log(max(limit, TRACE)) for share, limit in limits))


def salt_limit_in(
    additive: Additive, liquid: Liquid, other: Components, share: float
) -> float | None:
    """What two liquids together hold of an additive, by the log-linear model: an estimate.

    Parameters
    ----------
    additive
        The salt.
    liquid
        Liquid that carries it.
    other
        Liquid that joins.
    share
        Volume share of the first in the two together.

    Returns
    -------
    float or None
        [mol/m3] of both together; None where one of them has no limit in the table.
    """
    first, _, _ = holds(additive, liquid)
    water = sum(part for name, part in other if name == "water")
    second, _, _ = _held(additive, other, water)
    if first is None or second is None:
        return None
    return _blended([(share, first), (1.0 - share, second)])
