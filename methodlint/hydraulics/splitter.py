"""How a stream divides between branches that start at one point."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.fluid_interface import FloatArray, FlowingFluid
from methodlint.hydraulics.layout import Layout
from methodlint.hydraulics.march import March, march

__all__ = ["Branch", "Split", "split_flow"]

_MOST_TRIALS = 60
_SETTLED = 1.0e-4


@dataclass(frozen=True)
class Branch:
    """One way out of a splitter.

    Attributes
    ----------
    layout : Layout
        Its slices, from the splitter to its own end, (S,).
    outlet_pressure : array_like, (R,)
        At its end [Pa, abs]: a regulator's pressure for the main line.  A restrictor that ends in
        the open is choked: give the pressure at which its stream stops being one phase (the
        boundary pressure); the last millimetres below it hold back little.
    temperature : array_like
        Of its slices [K], scalar or (S,).
    """

    layout: Layout
    outlet_pressure: npt.ArrayLike
    temperature: npt.ArrayLike


@dataclass(frozen=True)
class Split:
    """How the stream divides, R rows.

    Attributes
    ----------
    side_fraction : ndarray, (R,)
        Share of the mass flow that takes the side branch [-].
    pressure : ndarray, (R,)
        At the splitter [Pa].
    main, side : March
        Of both branches.
    main_dry : ndarray of bool, (R,)
        The side branch swallows everything: the regulator cannot hold its pressure.
    side_alone : March
        The side branch with the whole stream.
    settled : ndarray of bool, (R,)
        Both branches start at one pressure within 0.01 %, or the share is known within 0.01 %:
        where friction jumps from one law to the next, no share makes them equal.
    """

    side_fraction: FloatArray
    pressure: FloatArray
    main: March
    side: March
    main_dry: npt.NDArray[np.bool_]
    side_alone: March
    settled: npt.NDArray[np.bool_]


def split_flow(
    fluid: FlowingFluid,
    main: Branch,
    side: Branch,
    mass_flow: npt.ArrayLike,
    w_modifier: npt.ArrayLike,
) -> Split:
    """Divide a mass flow so that both branches start at the same pressure.

    Parameters
    ----------
    fluid : FlowingFluid
        Mobile phase.
    main, side : Branch
        Main line and restrictor.
    mass_flow : array_like, (R,)
        Into the splitter [kg/s].
    w_modifier : array_like, scalar or (R, 1)
        Mass fraction of modifier [-]; both branches carry the same composition.
    """
    total = np.atleast_1d(np.asarray(mass_flow, dtype=np.float64))
    rows = max(
        total.shape[0],
        *(np.atleast_1d(np.asarray(b.outlet_pressure)).shape[0] for b in (main, side)),
    )
    total = np.broadcast_to(total, (rows,))

    def both(
        fraction: FloatArray, some: npt.NDArray[np.int64] | slice = slice(None)
    ) -> tuple[March, March, FloatArray]:
        stream, share = total[some], fraction[some]
        trunk = _run(fluid, main, (1.0 - share) * stream, w_modifier, rows, some)
        arm = _run(fluid, side, share * stream, w_modifier, rows, some)
        return trunk, arm, trunk.pump_pressure - arm.pump_pressure

    low, high = np.zeros(rows), np.ones(rows)
    _, _, excess_low = both(low)
    _, whole, excess_high = both(high)
    closed, dry = excess_low <= 0.0, excess_high >= 0.0
    fraction = np.where(closed, 0.0, np.where(dry, 1.0, 0.5))
    fixed = closed | dry
    settled = np.array(fixed)
    going = np.flatnonzero(~fixed)
    for trial in range(_MOST_TRIALS):
        if not going.size:
            break
        trunk, _, excess = both(fraction, going)
        above = excess > 0.0
        low[going[above]], excess_low[going[above]] = fraction[going[above]], excess[above]
        high[going[~above]], excess_high[going[~above]] = fraction[going[~above]], excess[~above]
        level = np.abs(excess) < _SETTLED * trunk.pump_pressure
        # where friction jumps from one law to the next the share is all that can be known
        known = level | (high[going] - low[going] < _SETTLED)
        settled[going[known]] = True
        going = going[~known]
        with np.errstate(divide="ignore", invalid="ignore"):
            chord = low + (high - low) * excess_low / (excess_low - excess_high)
        # halving in between keeps the chord from creeping along one end
        guess = 0.5 * (low + high) if trial % 3 == 2 else chord
        fraction[going] = guess[going]
    trunk, arm, _ = both(fraction)
    pressure = np.where(dry, arm.pump_pressure, trunk.pump_pressure)
    return Split(
        side_fraction=fraction,
        pressure=pressure,
        main=trunk,
        side=arm,
        main_dry=dry,
        side_alone=whole,
        settled=settled & trunk.settled & arm.settled,
    )


def _run(
    fluid: FlowingFluid,
    branch: Branch,
    mass_flow: FloatArray,
    w_modifier: npt.ArrayLike,
    rows: int,
    some: npt.NDArray[np.int64] | slice,
) -> March:
    """March one branch in some of the rows."""
    outlet = np.broadcast_to(np.asarray(branch.outlet_pressure, dtype=np.float64), (rows,))
    w, temperature = (
        values[some] if values.ndim == 2 and values.shape[0] == rows else values
        for values in map(np.asarray, (w_modifier, branch.temperature))
    )
    return march(fluid, branch.layout, outlet[some], mass_flow, w, temperature)
