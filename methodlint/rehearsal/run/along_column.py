"""What the fall of pressure along the column does to the mobile phase: density, temperature."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.temperature import adiabatic_faces
from methodlint.rehearsal.run.extreme import Extreme
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = [
    "ColumnEnds",
    "column_ends",
    "denser_when_cooled",
    "greatest_cooling",
    "look_at_cooling",
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
        (inlet - outlet) / inlet [-], shape (R,). Errors of the density model at one
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
    return ColumnEnds(inlet, outlet, np.where(same, 1.0 - outlet / inlet, 0.0))


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
    look_at_cooling([run])
    found: Extreme = vars(run)["greatest_cooling"]
    return found


def denser_when_cooled(run: Rehearsal, row: int, fall: float) -> float:
    """How much denser the mobile phase is at the column outlet if it arrives cooler [-].

    Parameters
    ----------
    run
        The rehearsal.
    row
        Row of it.
    fall
        Below the temperature of the oven [K].
    """
    w, temperature, pressure = (float(of[row]) for of in run.outlet_states)
    here, cooled = run.fluid.density(w, np.array([temperature, temperature - fall]), pressure)
    return float(cooled / here) - 1.0


def look_at_cooling(runs: Sequence[Rehearsal]) -> None:
    """Find the `greatest_cooling` of runs of one mobile phase in few calls of it; kept with them."""
    # A frozen dataclass keeps what was computed of it beside its fields, like a cached property.
    waiting = [run for run in runs if "greatest_cooling" not in vars(run)]
    if not waiting:
        return
    beds = [_Beds(run) for run in waiting]
    states = (np.concatenate([bed.ends[number] for bed in beds]) for number in range(3))
    slopes = np.mean(waiting[0].fluid.isenthalpic_slope(*states), axis=1)
    first = 0
    followed: dict[int, list[_Beds]] = {}
    for bed in beds:
        behind = first + bed.rows.size
        bed.choose(slopes[first:behind])
        first = behind
        if bed.fall >= _WORTH_FOLLOWING:
            followed.setdefault(bed.w.shape[1], []).append(bed)
    for together in followed.values():
        _follow(together)
    for run, bed in zip(waiting, beds, strict=True):
        vars(run)["greatest_cooling"] = bed.greatest()


class _Beds:
    """The packed beds of a run at rows spread over it."""

    def __init__(self, run: Rehearsal) -> None:
        first = run.slices_of(run.train.columns[0]).start
        last = run.slices_of(run.plan.analytical_column).stop
        self.run, self.rows = run, _spread(run.time.size)
        self.faces = run.pressure[self.rows, first : last + 1]
        self.w = run.w_modifier[self.rows, first:last]
        self.oven = run.temperature[self.rows, first:last]
        self.middle = 0.5 * (self.faces[:, :-1] + self.faces[:, 1:])
        # First and last slice: composition, temperature, pressure.
        self.ends = tuple(part[:, [0, -1]] for part in (self.w, self.oven, self.middle))
        self.row, self.fall = 0, 0.0

    def choose(self, slope: FloatArray) -> None:
        """Find the row with the greatest estimate by its mean slope [K/Pa], shape (rows,)."""
        estimate = slope * (self.faces[:, 0] - self.faces[:, -1])
        flowing = self.run.set_flow[self.rows] > 0.0
        self.row = int(np.argmax(np.where(flowing, estimate, -np.inf)))
        self.fall = float(estimate[self.row])

    def greatest(self) -> Extreme:
        """Say what was found."""
        time = float(self.run.time[self.rows[self.row]])
        return Extreme(self.fall, 0.5 * abs(self.fall), time)


def _follow(beds: Sequence[_Beds]) -> None:
    """Follow the expansion slice by slice in the row that each of some beds chose.

    The beds have one number of slices and one mobile phase.
    """
    w = np.array([bed.w[bed.row] for bed in beds])
    middle = np.array([bed.middle[bed.row] for bed in beds])
    step = np.diff([bed.faces[bed.row] for bed in beds], axis=1)
    start = np.array([bed.oven[bed.row, 0] for bed in beds])
    slope = np.array([bed.fall for bed in beds]) / -step.sum(axis=1)
    cooled, _ = adiabatic_faces(beds[0].run.fluid, w, middle, step, start, slope)
    for bed, faces in zip(beds, cooled, strict=True):
        bed.fall = float(faces[0] - faces[-1])


def _spread(count: int) -> npt.NDArray[np.int64]:
    """Rows spread over the run: cooling changes as slowly as the composition in the bed."""
    # No more rows than there are, so none comes twice.
    return np.linspace(0, count - 1, min(count, _ROWS_LOOKED_AT)).astype(np.int64)


_ROWS_LOOKED_AT = 24
_WORTH_FOLLOWING = 3.0
"""Fall [K], by the mean slope of both ends, from which on the expansion is followed slice by slice."""


def outlet_compressibility_band(run: Rehearsal, row: int) -> float:
    """What a shift of the phase boundary by its own band does to the compressibility [1/Pa]."""
    known = vars(run).get(_SOFTEST)
    if known is not None and known[0] == row:
        return float(known[1])
    return float(_compressibility_bands([run], [row])[0])


_SOFTEST = "softest_outlet"


def look_at_softest(runs: Sequence[Rehearsal]) -> None:
    """Compute that band at the softest moment of many runs of one mobile phase."""
    rows = [int(run.outlet_compressibility.argmax()) for run in runs]
    for run, row, band in zip(runs, rows, _compressibility_bands(runs, rows), strict=True):
        vars(run)[_SOFTEST] = (row, float(band))


def _compressibility_bands(runs: Sequence[Rehearsal], rows: Sequence[int]) -> FloatArray:
    w, temperature, moved, here = (np.empty(len(runs)) for _ in range(4))
    for k, (run, row) in enumerate(zip(runs, rows, strict=True)):
        end = run.slices_of(run.plan.analytical_column).stop - 1
        w[k], temperature[k] = run.w_modifier[row, end], run.temperature[row, end]
        moved[k] = max(float(run.column_outlet_pressure[row]) - _band_above(run, row), 1e5)
        here[k] = run.outlet_compressibility[row]
    return np.abs(runs[0].fluid.compressibility(w, temperature, moved) - here)


def _band_above(run: Rehearsal, row: int) -> float:
    return float(run.fluid.boundary_band(*(float(v[row]) for v in run.outlet_states[:2])).above)


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
    below, above = (float(side[row]) * value for side in run.resistance_band)
    return Extreme(value, above, float(time[row]), below)
