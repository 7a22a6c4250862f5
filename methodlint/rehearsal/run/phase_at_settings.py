"""What the settings of a method alone say about the phases that leave its column.

Without a column and an instrument no pressure can be computed, but the column outlet lies between
the set pressure and a little above it, whatever the bench: that often decides the question.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2 import properties as co2
from methodlint.hydraulics.drop_band import REGULATOR_ACCURACY
from methodlint.rehearsal.plan.run_plan import RunPlan
from methodlint.rehearsal.plan.set_points import filled_rows
from methodlint.rehearsal.plan.surroundings import AMBIENT

__all__ = ["DROP_DOWNSTREAM", "OutletBySettings", "outlet_by_settings"]

FloatArray = npt.NDArray[np.float64]

DROP_DOWNSTREAM = 25e5
"""Most that tubes and cells downstream of the column add to the set pressure [Pa]: common practice,
no source."""

_HEADS = ((277.15, 400e5), (283.15, 150e5), (288.15, 80e5))
"""Temperatures [K] and pressures [Pa] of pump heads, from the densest CO2 to the lightest: common
practice, no source."""
_POINTS = 41
_TEMPERATURES = 5


@dataclass(frozen=True)
class OutletBySettings:
    """The outlet beside the boundary at the composition that is closest to two phases.

    Attributes
    ----------
    pressure, highest
        Set pressure, and the most that the column outlet can have [Pa].
    temperature
        Oven temperature there [K].
    boundary
        Highest two-phase pressure of that composition [Pa]; 0 where nothing ever splits.
    below, above
        Band of the boundary [Pa], the regulator's accuracy included.
    shares
        Lowest and highest modifier share with two phases, certain or possible [-].
    certain
        Whether two phases leave the column on any bench.
    possible
        Whether they may.
    clear_above
        Set pressure from which on every composition of the programme has one phase [Pa].
    modifier
        Name of the main liquid of the modifier.
    validated
        Whether measured points bear the band out there.
    """

    pressure: float
    highest: float
    temperature: float
    boundary: float
    below: float
    above: float
    shares: tuple[float, float]
    certain: bool
    possible: bool
    clear_above: float
    modifier: str
    validated: bool


def outlet_by_settings(plan: RunPlan) -> OutletBySettings | None:
    """Compare the set pressure with the phase boundary at every composition of the programme.

    Parameters
    ----------
    plan
        A run that lacks a column, an instrument or figures of theirs.

    Returns
    -------
    OutletBySettings or None
        None without a model of the mobile phase, or where the method does not say share, outlet
        pressure and oven temperature throughout in units and values that can be used.
    """
    method = plan.method.model
    used = ("programme", "mobile_phase", "outlet_pressure", "oven_temperature")
    if plan.fluid is None or any(path[0] in used for path in plan.method.broken if path):
        return None
    rows = filled_rows(method)
    values = [(row.share, row.outlet_pressure, row.temperature) for row in rows]
    if any(None in value for value in values):
        return None
    share, pressure, oven = np.asarray(values, dtype=np.float64).T
    if share.min() < 0.0 or share.max() > 1.0 or pressure.min() <= 0.0:
        return None
    ramps = [
        np.linspace(first.share, last.share, _POINTS)  # type: ignore[arg-type]
        for first, last in itertools.pairwise(rows)
        if not last.step
    ]
    shares = np.unique(np.concatenate([share, *ramps]))
    temperatures = np.linspace(oven.min(), oven.max(), _TEMPERATURES)
    return _compared(plan, shares, temperatures, float(pressure.min()), float(pressure.max()))


def _compared(
    plan: RunPlan, shares: FloatArray, temperatures: FloatArray, lowest: float, highest: float
) -> OutletBySettings:
    """Take the worst state of each share for what may be, and the best for what must be."""
    fluid = plan.fluid
    assert fluid is not None
    heads = np.array([float(co2.density(*head)) for head in _HEADS])
    liquid = shares * float(fluid.modifier_density(AMBIENT))
    # shape (share, head, temperature)
    w = (liquid[:, None] / (liquid[:, None] + (1.0 - shares[:, None]) * heads))[:, :, None]
    boundary = np.asarray(fluid.upper_boundary_pressure(w, temperatures))
    band = fluid.boundary_band(w, temperatures).with_error(REGULATOR_ACCURACY)
    below, above = (np.broadcast_to(side, boundary.shape) for side in band)
    splits = boundary > 0.0
    upper = np.where(splits, boundary + above, 0.0)
    lower = np.where(splits, boundary - below, 0.0)
    must = highest + DROP_DOWNSTREAM < lower.min(axis=(1, 2))
    may = lowest < upper.max(axis=(1, 2))
    shown = must if must.any() else may if may.any() else np.ones(shares.shape, dtype=bool)
    weight = np.where(shown[:, None, None], upper, -1.0)
    at = np.unravel_index(int(np.argmax(weight)), weight.shape)
    temperature = float(temperatures[at[2]])
    return OutletBySettings(
        pressure=lowest,
        highest=highest + DROP_DOWNSTREAM,
        temperature=temperature,
        boundary=float(boundary[at]),
        below=float(below[at]),
        above=float(above[at]),
        shares=(float(shares[shown].min()), float(shares[shown].max())),
        certain=bool(must.any()),
        possible=bool(may.any()),
        clear_above=float(upper.max()),
        modifier=plan.modifier_name,
        validated=fluid.boundary_is_validated(float(w[at[0], at[1], 0]), temperature),
    )
