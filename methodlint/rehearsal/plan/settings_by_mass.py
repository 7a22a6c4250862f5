"""Flows and shares that are not those of pumps that set volumes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import number
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.text.visible import visible
from methodlint.fluids.co2.constants import MOLAR_MASS
from methodlint.fluids.liquids.known import find_liquid
from methodlint.hydraulics.metering import share_for_mass_fraction
from methodlint.rehearsal.plan.components import components_of
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.surroundings import AMBIENT, booked_co2_density

_SHARE = "only a share by volume, as the pumps set it, can be rehearsed; give % v/v"
_MOST_TOLD = 6
_BOOKED = booked_co2_density("mass")


def by_volume(quantity: Quantity) -> bool:
    """Whether a flow or a share is one that pumps set by volume."""
    return quantity.unit != "g/min" and quantity.basis in (None, "v/v")


def settings_by_mass(method: Loaded[Method]) -> list[Missing]:
    """Name flows by mass, and shares by mass or amount, each kind once.

    Parameters
    ----------
    method
        The loaded method.
    """
    typed = method.model
    found: list[Missing] = []
    rows = typed.programme
    liquid = _modifier(typed)
    flow = _flow_words(liquid)
    if typed.flow is not None and not by_volume(typed.flow):
        found.append(Missing("method.flow", method, flow))
    elif any(row.flow is not None and not by_volume(row.flow) for row in rows):
        found.append(Missing("method.programme[].flow", method, flow))
    share = typed.mobile_phase.modifier_share if typed.mobile_phase else None
    if share is not None and not by_volume(share):
        words = _share_words([share], liquid)
        found.append(Missing("method.mobile_phase.modifier_share", method, words))
        return found
    shares = [row.modifier_share for row in rows if row.modifier_share]
    others = [one for one in shares if not by_volume(one)]
    if others:
        words = _share_words(others, liquid)
        found.append(Missing("method.programme[].modifier_share", method, words))
    return found


@dataclass(frozen=True, slots=True)
class _Blend:
    """What the modifier is by name, density [kg/m3] at room temperature and molar mass [kg/mol]."""

    name: str
    density: float
    molar_mass: float

    def mass_fraction(self, share: Quantity) -> float:
        """Mass fraction of modifier that a share by mass or amount means [-]."""
        if share.basis == "w/w":
            return share.si
        modifier = share.si * self.molar_mass
        return modifier / (modifier + (1.0 - share.si) * MOLAR_MASS)


def _modifier(method: Method) -> _Blend | None:
    """The modifier; None where one of its liquids is not known."""
    modifier = method.mobile_phase.modifier if method.mobile_phase else None
    parts = components_of(modifier) if modifier else ()
    density = amount = 0.0
    for name, share in parts:
        liquid = find_liquid(name)
        if liquid is None or liquid.density is None:
            return None
        own = share * float(liquid.density(AMBIENT))
        density, amount = density + own, amount + own / liquid.molar_mass
    if not parts or density <= 0.0:
        return None
    return _Blend(" + ".join(name for name, _ in parts), density, density / amount)


def _flow_words(liquid: _Blend | None) -> str:
    also = f" and 1 g/min of {liquid.name} as {number(1e3 / liquid.density, 3)}" if liquid else ""
    return (
        f"a mass flow cannot be rehearsed; give mL/min, 1 g/min of CO2 counting as "
        f"{number(1e3 / _BOOKED, 3)} mL/min{also}"
    )


def _share_words(shares: Sequence[Quantity], liquid: _Blend | None) -> str:
    """Give the shares by volume that mean the same on a pump that meters mass."""
    if liquid is None or any(not 0.0 <= share.si <= 1.0 for share in shares):
        return _SHARE
    said = []
    for share in list({share.text: share for share in shares}.values())[:_MOST_TOLD]:
        w = liquid.mass_fraction(share)
        volume = float(share_for_mass_fraction(w, liquid.density, _BOOKED))
        said.append(f"{visible(share.text)} as {number(100.0 * volume, 3)} % v/v")
    return (
        f"{_SHARE}, where the CO2 pump meters mass {', '.join(said)} (CO2 at {_BOOKED:.0f} and "
        f"{liquid.name} at {liquid.density:.0f} kg/m3); where it meters volume, by the density of "
        f"CO2 in its head"
    )
