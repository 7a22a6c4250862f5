"""Flows and shares that are not those of pumps that set volumes."""

from __future__ import annotations

from typing import cast

from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.documents.quantity import Quantity
from methodlint.rehearsal.missing import Missing
from methodlint.rehearsal.surroundings import booked_co2_density

_FLOW = (
    "a mass flow cannot be rehearsed; give mL/min, 1 g/min of CO2 counting as "
    f"{1e3 / booked_co2_density('mass'):.3g} mL/min"
)
_SHARE = "only a share by volume, as the pumps set it, can be rehearsed; give % v/v"


def by_volume(quantity: Quantity) -> bool:
    """Whether a flow or a share is one that pumps set by volume."""
    return quantity.unit != "g/min" and quantity.basis in (None, "v/v")


def settings_by_mass(method: Loaded) -> list[Missing]:
    """Name flows by mass, and shares by mass or amount, each kind once.

    Parameters
    ----------
    method
        The loaded method.
    """
    typed = cast(Method, method.model)
    found: list[Missing] = []
    rows = typed.programme
    if typed.flow is not None and not by_volume(typed.flow):
        found.append(Missing("method.flow", method, _FLOW))
    elif any(row.flow is not None and not by_volume(row.flow) for row in rows):
        found.append(Missing("method.programme[].flow", method, _FLOW))
    share = typed.mobile_phase.modifier_share if typed.mobile_phase else None
    if share is not None and not by_volume(share):
        found.append(Missing("method.mobile_phase.modifier_share", method, _SHARE))
    elif any(row.modifier_share and not by_volume(row.modifier_share) for row in rows):
        found.append(Missing("method.programme[].modifier_share", method, _SHARE))
    return found
