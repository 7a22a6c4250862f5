"""Whether the weight on a supply card can still be believed."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from methodlint.documents.contents.cylinder_fill import can_hold
from methodlint.documents.kinds.supply import Supply

_SAME_WEIGHING = 0.2
"""Difference [kg] allowed between net mass and gross less tare; common practice, no source."""

_FRESH = 86400.0
"""How long a weighing counts when no use is logged [s]; common practice, no source."""


@dataclass(frozen=True, slots=True)
class WeightDoubt:
    """Why a weight says nothing about today.

    Attributes
    ----------
    path
        Value of the supply card that is in doubt.
    missing
        Figure to supply.
    reason
        In words.
    """

    path: tuple[str, ...]
    missing: str
    reason: str


def age_in_days(supply: Supply, as_of: datetime.date | None) -> int | None:
    """Days between the weighing and the run; None if either is not known."""
    if supply.weighed is None or as_of is None:
        return None
    return (as_of - supply.weighed).days


def days_after_the_run(supply: Supply, as_of: datetime.date | None) -> int:
    """By how many days the weighing lies after the run; 0 if it does not, or nothing hangs on it."""
    age = None if supply.telemetry else age_in_days(supply, as_of)
    return max(-age, 0) if age is not None else 0


def weight_doubt(
    supply: Supply, as_of: datetime.date | None, fresh: float | None = None
) -> WeightDoubt | None:
    """Find what makes the net mass of a supply card useless; None if nothing does.

    Parameters
    ----------
    as_of
        Day of the run.
    fresh
        How long a weighing counts when no use is logged [s]; one day if nobody says.
    """
    if supply.net_mass is None:
        return None
    return _impossible(supply) or _old(supply, as_of, _FRESH if fresh is None else fresh)


def _impossible(supply: Supply) -> WeightDoubt | None:
    assert supply.net_mass is not None
    net, gross, tare = supply.net_mass.si, supply.gross_mass, supply.tare_mass
    if _above_full(supply, net):
        assert supply.full_mass is not None
        return WeightDoubt(
            ("net_mass",),
            "supply.net_mass",
            f"{net:.1f} kg is more than the full {supply.full_mass.si:.1f} kg; it may be the "
            "weight of cylinder and CO2 together",
        )
    if gross is not None and tare is not None:
        if gross.si < tare.si:
            reason = f"{gross.si:.1f} kg on the scale is less than the empty {tare.si:.1f} kg"
            return WeightDoubt(("gross_mass",), "supply.gross_mass", reason)
        if abs(gross.si - tare.si - net) > _SAME_WEIGHING:
            reason = (
                f"{gross.si:.1f} kg less the empty {tare.si:.1f} kg is "
                f"{gross.si - tare.si:.1f} kg, not {net:.1f} kg"
            )
            return WeightDoubt(("net_mass",), "supply.net_mass", reason)
    if supply.used_since_weighed is not None and supply.used_since_weighed.si > net:
        reason = f"{supply.used_since_weighed.si:.1f} kg logged since is more than {net:.1f} kg"
        return WeightDoubt(("used_since_weighed",), "supply.net_mass", reason)
    return None


def _above_full(supply: Supply, net: float) -> bool:
    full = supply.full_mass
    if full is None or supply.net_mass is None:
        return False
    if not can_hold(supply, net):  # said by supply.overfilled
        return False
    # The mass of one cylinder on the card of several is a contradiction of its own.
    if net <= full.si * supply.cylinders:
        return False
    return net > full.si + (supply.net_mass.tolerance or _SAME_WEIGHING)


def _old(supply: Supply, as_of: datetime.date | None, fresh: float) -> WeightDoubt | None:
    if supply.telemetry:
        return None
    if supply.weighed is None:
        return WeightDoubt(("net_mass",), "supply.weighed", "it does not say when it was weighed")
    age = age_in_days(supply, as_of)
    old = "" if age is None else f", {age} d before the run"
    weighed = f"weighed on {supply.weighed}{old}"
    if supply.used_since_weighed is not None:
        return None
    if supply.last_used is not None:
        if supply.weighed >= supply.last_used:
            return None
        reason = f"{weighed}; a sequence of {supply.last_used} has drawn from it since"
        return WeightDoubt(("weighed",), "supply.used_since_weighed", reason)
    if age is not None and age * 86400.0 > fresh:
        reason = f"{weighed}, and no use since is logged"
        return WeightDoubt(("weighed",), "supply.used_since_weighed", reason)
    return None
