"""What the fall of pressure along the column does to the mobile phase: density, temperature."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.temperature import adiabatic_faces
from methodlint.rehearsal.rehearsal import Extreme, Rehearsal

__all__ = [
    "ColumnEnds",
    "column_ends",
    "greatest_cooling",
    "outlet_compressibility_band",
    "steepest_rise",
]

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class ColumnEnds:
    """Density at both ends of the beds, over R times.

    Attributes
    ----------
    inlet, outlet
        [kg/m3], shape (R,).
    fall
        (inlet - outlet) / mean of the bed [-], shape (R,). Errors of the density model at one
        composition go the same way at both ends and mostly cancel.
    """

    inlet: FloatArray
    outlet: FloatArray
    fall: FloatArray


def column_ends(run: Rehearsal) -> ColumnEnds:
    """Density at the inlet of the first and the outlet of the last packed bed.

    Rows in which a front of another composition is on its way through the bed are left out (a
    fall of zero): what differs there is the mixture, not the pressure.
    """
    first = run.slices_of(run.train.columns[0]).start
    last = run.slices_of(run.plan.analytical_column).stop - 1
    inlet, outlet = run.density[:, first], run.density[:, last]
    same = np.abs(run.share[:, first] - run.share[:, last]) < _SAME_SHARE
    mean = run.density[:, first : last + 1].mean(axis=1)
    return ColumnEnds(inlet, outlet, np.where(same, (inlet - outlet) / mean, 0.0))


_SAME_SHARE = 0.03
"""Difference of modifier share between both ends of the bed up to which the fall of density is
that of the pressure. Our own choice."""


def greatest_cooling(run: Rehearsal) -> Extreme:
    """Greatest fall of temperature along the beds without heat from the oven [K].

    The adiabatic bound: the mobile phase expands at constant enthalpy from the pressure at the
    inlet of the first bed to that at the outlet of the last. A thermostatted wall makes the real
    fall smaller, so the bound is the upper end of the band. Positive means that it cools.

    Returns
    -------
    Extreme
        Fall [K], half of it as the band, and the time at which it is greatest.
    """
    # A frozen dataclass keeps what was computed of it beside its fields, like a cached property.
    kept = vars(run)
    if "greatest_cooling" not in kept:
        kept["greatest_cooling"] = _greatest_cooling(run)
    found: Extreme = kept["greatest_cooling"]
    return found


def _greatest_cooling(run: Rehearsal) -> Extreme:
    """Look for it; see `greatest_cooling`."""
    first = run.slices_of(run.train.columns[0]).start
    last = run.slices_of(run.plan.analytical_column).stop
    beds = slice(first, last)
    rows = _spread(run.time.size)
    faces = run.pressure[rows, first : last + 1]
    w, mid = run.w_modifier[rows, beds], 0.5 * (faces[:, :-1] + faces[:, 1:])
    oven = run.temperature[rows, beds]
    ends = [0, -1]
    slope = run.fluid.isenthalpic_slope(w[:, ends], oven[:, ends], mid[:, ends]).mean(axis=1)
    estimate = slope * (faces[:, 0] - faces[:, -1])
    row = int(np.argmax(np.where(run.set_flow[rows] > 0.0, estimate, -np.inf)))
    if estimate[row] < _WORTH_FOLLOWING:
        rough = float(estimate[row])
        return Extreme(rough, 0.5 * abs(rough), float(run.time[rows[row]]))
    one = slice(row, row + 1)
    step = np.diff(faces[one], axis=1)
    cooled, _ = adiabatic_faces(run.fluid, w[one], mid[one], step, oven[one, 0])
    fall = float(cooled[0, 0] - cooled[0, -1])
    return Extreme(fall, 0.5 * abs(fall), float(run.time[rows[row]]))


def _spread(count: int) -> npt.NDArray[np.int64]:
    """Rows spread over the run: cooling changes as slowly as the composition in the bed."""
    # No more rows than there are, so none comes twice.
    return np.linspace(0, count - 1, min(count, _ROWS_LOOKED_AT)).astype(np.int64)


_ROWS_LOOKED_AT = 40
_WORTH_FOLLOWING = 3.0
"""Fall [K], by the mean slope of both ends, from which on the expansion is followed slice by slice."""


def outlet_compressibility_band(run: Rehearsal, row: int) -> float:
    """What a shift of the phase boundary by its own band does to the compressibility [1/Pa]."""
    end = run.slices_of(run.plan.analytical_column).stop - 1
    pressure = float(run.column_outlet_pressure[row])
    state = float(run.w_modifier[row, end]), float(run.temperature[row, end])
    moved = max(pressure - run.boundary_band, 1e5)
    near = float(run.fluid.compressibility(*state, moved))
    return abs(near - float(run.outlet_compressibility[row]))


def steepest_rise(run: Rehearsal) -> Extreme:
    """Greatest rise of the pressure at the column inlet within one second of the run [Pa].

    Returns
    -------
    Extreme
        Rise, its band, and the time at which it begins. Errors of the flow resistance are alike
        before and after and scale the rise.
    """
    pressure, time = run.column_inlet_pressure, run.time
    inside = time <= run.programme.run_length
    pressure, time = pressure[inside], time[inside]
    if time.size < 2:
        return Extreme(0.0, 0.0, 0.0)
    later = np.interp(time + 1.0, time, pressure)
    change = later - pressure
    row = int(np.argmax(change))
    value = max(float(change[row]), 0.0)
    return Extreme(value, float(run.resistance_band[row]) * value, float(time[row]))
