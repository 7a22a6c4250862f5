"""The liquids of a bottle with their shares by volume."""

from __future__ import annotations

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.quantities.quantity import Quantity
from methodlint.fluids.liquids.known import find_liquid
from methodlint.fluids.liquids.liquid_record import LiquidRecord as PureLiquid
from methodlint.rehearsal.plan.surroundings import AMBIENT

__all__ = ["components_of"]


def components_of(liquid: Liquid) -> tuple[tuple[str, float], ...]:
    """Name the liquids of a bottle with their shares by volume; the names are the standard ones.

    Shares by mass or amount are turned into volumes with the densities of the pure liquids at
    20 degC, excess volume left out; a blend with a liquid of unknown density keeps its figures.
    """
    if not liquid.liquids:
        return ((_name(liquid.liquid), 1.0),) if liquid.liquid else ()
    parts = [(part.liquid, find_liquid(part.liquid), part.share) for part in liquid.liquids]
    figures = [share.si for _, _, share in parts]
    if any(share.basis in ("w/w", "mol") for _, _, share in parts):
        volumes = [_volume(found, share) for _, found, share in parts]
        known = [volume for volume in volumes if volume is not None]
        if len(known) == len(volumes) and sum(known) > 0.0:
            figures = [volume * sum(figures) / sum(known) for volume in known]
    return tuple((_name(name), figure) for (name, _, _), figure in zip(parts, figures, strict=True))


def _name(name: str) -> str:
    found = find_liquid(name)
    return found.name if found else name


def _volume(found: PureLiquid | None, share: Quantity) -> float | None:
    """Volume that a share stands for, in the same arbitrary unit for all parts of a blend."""
    if found is None or found.density is None or share.basis not in ("w/w", "mol"):
        return None
    mass = share.si * (found.molar_mass if share.basis == "mol" else 1.0)
    return mass / float(found.density(AMBIENT))
