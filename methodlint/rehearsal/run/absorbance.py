"""How much a liquid absorbs in the ultraviolet, at least."""

from __future__ import annotations

from methodlint.documents.kinds.base import Liquid
from methodlint.fluids.additives.absorbance_data import (
    AT_CUTOFF,
    additive_absorbance,
    liquid_absorbance,
)
from methodlint.fluids.additives.known import find_additive, uv_cutoff
from methodlint.rehearsal.contacts.dissolved import level_of
from methodlint.rehearsal.plan.run_plan import components_of
from methodlint.rehearsal.plan.set_points import FilledRow

_SAME = 1e-12

_UNKNOWN_BELOW = 210e-9
"""Wavelength [m] below which an additive without published absorbance is not taken for clear."""


def least_absorbance(liquid: Liquid, wavelength: float) -> float | None:
    """Decadic absorbance per length of a liquid with its additives [1/m], at least.

    Parameters
    ----------
    liquid
        A single liquid or a blend, parts weighted by their share.
    wavelength
        [m].

    Returns
    -------
    float or None
        Published absorbances where there are any; else 100 per metre below the cutoff and 0 from
        there on, the cutoff moved up by additives. None if the cutoff of a part or the shift of an
        additive is not known.
    """
    unpublished = []
    added = 0.0
    for item in liquid.additives:
        level = level_of(item)
        own = None if level is None else additive_absorbance(item.additive, level, wavelength)
        if own is None:
            unpublished.append(item.additive)
        else:
            added += own
    total = 0.0
    for name, share in components_of(liquid):
        by_itself, moved = liquid_absorbance(name, wavelength), uv_cutoff(name, unpublished)
        if by_itself is None or moved is None:
            return None
        total += share * max(by_itself, AT_CUTOFF if wavelength < moved - _SAME else 0.0)
    return total + added


def unpublished_absorber(liquid: Liquid, wavelength: float) -> str | None:
    """Name an additive whose absorbance at this wavelength [m] is not published, if one counts."""
    if wavelength >= _UNKNOWN_BELOW - _SAME:
        return None
    for item in liquid.additives:
        known, level = find_additive(item.additive), level_of(item)
        if known is None or not known.uv_shift:
            continue
        if level is None or additive_absorbance(item.additive, level, wavelength) is None:
            return known.name
    return None


def row_absorbance(row: FilledRow, modifier: float, makeup: float, makeup_flow: float) -> float:
    """Absorbance per length of the mobile phase at a row of the programme [1/m].

    Carbon dioxide is transparent, so the modifier counts by its share; a makeup liquid that joins
    before the cell counts by the share of its flow.

    Parameters
    ----------
    row
        A row with share and flow.
    modifier, makeup
        Absorbance per length of the liquids [1/m].
    makeup_flow
        [m3/s]; 0 if it does not pass the cell.
    """
    flow = row.flow or 0.0
    total = flow + makeup_flow
    if total <= 0.0:
        return 0.0
    return ((row.share or 0.0) * flow * modifier + makeup_flow * makeup) / total
