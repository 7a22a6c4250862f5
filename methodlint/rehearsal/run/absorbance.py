"""The least that a liquid absorbs below its ultraviolet cutoff."""

from __future__ import annotations

from methodlint.documents.kinds.base import Liquid
from methodlint.fluids.additives.known import uv_cutoff
from methodlint.rehearsal.plan.run_plan import components_of
from methodlint.rehearsal.plan.set_points import FilledRow

AT_CUTOFF = 100.0
"""Absorbance per length at the cutoff [1/m]: that is what the cutoff means, 1 in 1 cm."""

DECADE = 20e-9
"""Wavelength [m] over which a solvent's edge rises tenfold below its cutoff. Edges are steeper
than this, so the figure is the least; common practice, no source."""

_MOST_DECADES = 4.0
_SAME = 1e-12


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
        0 at and above the cutoff, 100 per metre between the cutoff that additives give and that
        of the liquid itself, more further down; None if the cutoff of a part or the shift of an
        additive is not known.
    """
    additives = [item.additive for item in liquid.additives]
    total = 0.0
    for name, share in components_of(liquid):
        with_additives, own = uv_cutoff(name, additives), uv_cutoff(name)
        if with_additives is None or own is None:
            return None
        if wavelength < with_additives - _SAME:
            # A little of an additive has no steep edge of its own, so only the liquid's rises.
            decades = min(max((own - wavelength) / DECADE, 0.0), _MOST_DECADES)
            total += share * AT_CUTOFF * 10.0**decades
    return total


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
