"""How full the cylinders of a supply card are by its own figures: mass over water capacity."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from methodlint.documents.quantities.quantity import Quantity

if TYPE_CHECKING:  # a kind is imported only where a document of it is read
    from methodlint.documents.kinds.supply import Supply

PERMITTED = 760.0
"""Most CO2 per water capacity [kg/m3] that a cylinder is filled with: ADR, packing instruction
P200, UN 1013, 0.76 at a test pressure of 250 bar and 0.68 at 190 bar (unverified)."""

_BY_TEST_PRESSURE = ((250e5, 760.0), (0.0, 680.0))
"""From this test pressure on [Pa], so much [kg/m3]: the same instruction, UN 1013 (unverified)."""

LIQUID = 1032.0
"""Liquid CO2 as tankers bring it, saturated at -20 degC [kg/m3]: Span and Wagner, J. Phys. Chem.
Ref. Data 25, 1509 (1996). No filling puts more into a cylinder."""

MAY_BE_OVER, SURELY_OVER = 1.05, 1.1
"""Times what is permitted: capacities are rounded on cards; common practice, no source."""

_ROUNDING = 0.02
_SCALE = 0.2
_REFRIGERATED = 263.15


@dataclass(frozen=True, slots=True)
class Fill:
    """A mass of a card [kg] in the water capacity of all cylinders [m3]."""

    field: str
    mass: float
    volume: float

    @property
    def density(self) -> float:
        """Mass per water capacity [kg/m3]."""
        return self.mass / self.volume


def total_capacity(supply: Supply) -> float | None:
    """Water capacity of all connected cylinders [m3]; None if the card does not give it."""
    if supply.water_capacity is None:
        return None
    return supply.water_capacity.si * max(supply.cylinders, 1)


def fills(supply: Supply) -> tuple[Fill, ...]:
    """Full and net mass over the water capacity of all cylinders, the fullest first."""
    volume = total_capacity(supply)
    if not volume:
        return ()
    masses = (("full_mass", supply.full_mass), ("net_mass", supply.net_mass))
    found = [Fill(name, mass.si, volume) for name, mass in masses if mass is not None]
    return tuple(sorted(found, key=lambda fill: -fill.density))


def permitted(supply: Supply) -> float:
    """Most CO2 per water capacity [kg/m3]; of the stamped test pressure where the card has it."""
    if supply.test_pressure is None:
        return PERMITTED
    tested = supply.test_pressure.si * (1.0 + 1e-6)
    return next(most for least, most in _BY_TEST_PRESSURE if tested >= least)


def slack(supply: Supply) -> float:
    """Times what is permitted from which a fill is reported: none with a test pressure."""
    return MAY_BE_OVER if supply.test_pressure is None else 1.0 + 1e-3


def overfills(supply: Supply) -> tuple[Fill, ...]:
    """Masses that are clearly more than a cylinder is filled with, the fullest first.

    A bulk tank, or a vessel that is kept cold, is filled with more than a cylinder.
    """
    if _is_tank(supply):
        return ()
    return tuple(fill for fill in fills(supply) if fill.density > slack(supply) * permitted(supply))


def can_hold(supply: Supply, mass: float) -> bool:
    """Whether the connected cylinders may hold a mass [kg]; yes if their size is not known."""
    volume = total_capacity(supply)
    return _is_tank(supply) or not volume or mass / volume <= SURELY_OVER * PERMITTED


def real_filling(supply: Supply) -> float | None:
    """CO2 per water capacity of fresh cylinders [kg/m3]: the greatest that the card gives.

    A mass that agrees with the stated ratio but for rounding leaves the ratio as it is; one
    that nothing could press into the cylinder is a slip and says nothing of its pressure.
    """
    stated = supply.filling_ratio.si if supply.filling_ratio is not None else None
    by_mass = max((fill.density for fill in fills(supply) if fill.density <= LIQUID), default=None)
    if stated is None or by_mass is None:
        return by_mass if stated is None else stated
    return by_mass if by_mass > stated * (1.0 + _ROUNDING) else stated


def above_stated(supply: Supply) -> Fill | None:
    """Find the mass that contradicts the stated filling ratio by being more.

    Less is none: the ratio on a label is often the most that is permitted.
    """
    if supply.filling_ratio is None or _is_tank(supply):
        return None
    masses = fills(supply)
    # A net mass above the full one is a contradiction of its own.
    full = [fill for fill in masses if fill.field == "full_mass"]
    for fill in full or masses:
        allowed = supply.filling_ratio.si * fill.volume
        if fill.mass > max(allowed * (1.0 + _ROUNDING), allowed + _SCALE * supply.cylinders):
            return fill
    return None


def _is_tank(supply: Supply) -> bool:
    if supply.withdrawal == "bulk":
        return True
    store = supply.store_temperature
    if store is None:
        return False
    warmest = store if isinstance(store, Quantity) else store.highest
    return warmest.si <= _REFRIGERATED
