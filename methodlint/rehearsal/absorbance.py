"""The least that a liquid absorbs below its ultraviolet cutoff."""

from __future__ import annotations

import numpy as np

from methodlint.documents.kinds.base import Liquid
from methodlint.fluids.additives import uv_cutoff
from methodlint.rehearsal.rehearsal import FloatArray, Rehearsal
from methodlint.rehearsal.run_plan import components_of

AT_CUTOFF = 100.0
"""Absorbance per length at the cutoff [1/m]: that is what the cutoff means, 1 in 1 cm."""

DECADE = 20e-9
"""Wavelength [m] over which a solvent's edge rises tenfold below its cutoff. Edges are steeper
than this, so the figure is the least; common practice, no source."""

_MOST_DECADES = 4.0


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
        0 at and above the cutoff, 100 per metre just below, more further down; None if the cutoff
        of a part or the shift of an additive is not known.
    """
    additives = [item.additive for item in liquid.additives]
    total = 0.0
    for name, share in components_of(liquid):
        cutoff = uv_cutoff(name, additives)
        if cutoff is None:
            return None
        if wavelength < cutoff:
            decades = min((cutoff - wavelength) / DECADE, _MOST_DECADES)
            total += share * AT_CUTOFF * 10.0**decades
    return total


def mobile_phase_absorbance(run: Rehearsal, modifier: float, makeup: float = 0.0) -> FloatArray:
    """Absorbance per length of the mobile phase over the run length [1/m], shape (K,).

    Carbon dioxide is transparent, so the modifier counts by its share; a makeup liquid that joins
    before the cell counts by the share of its flow.

    Parameters
    ----------
    run
        A finished rehearsal.
    modifier, makeup
        Absorbance per length of the liquids [1/m].
    """
    within = run.time <= run.programme.run_length
    flow = run.set_flow[within]
    share = run.share[within, -1]
    joins = run.plan.makeup_flow if makeup > 0.0 else 0.0
    total = np.where(flow + joins > 0.0, flow + joins, 1.0)
    return np.asarray((share * flow * modifier + joins * makeup) / total)
