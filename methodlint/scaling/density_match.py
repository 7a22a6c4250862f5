"""The regulator setting with which the target's column holds the density of the source's.

Retention in SFC follows the density of the mobile phase at a given composition. Two systems with
the same *regulator setting* differ in column-mean density by what their columns and tubes lose;
the setting is therefore solved for, through the whole march, at every corner of the programme.

Source: Tarafder, Hudalla, Iraneta and Fountain, J. Chromatogr. A 1362 (2014) 278 (abstract only):
the scaling rules of liquid chromatography hold where the average density is equal.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from methodlint.rehearsal.plan.programme import SetPoint
from methodlint.rehearsal.plan.run_plan import RunPlan
from methodlint.scaling.settled import Settled, settled_states

__all__ = [
    "CAUTION_ABOVE",
    "FAULT_ABOVE",
    "STIFF_SHARE",
    "STIFF_TEMPERATURE",
    "Match",
    "common_setting",
    "is_stiff",
    "residual",
    "solve_outlet_pressures",
]

CAUTION_ABOVE = 0.02
FAULT_ABOVE = 0.05
"""Relative difference of mean density (2-5 % for the same selectivity: common practice, no
source)."""

STIFF_SHARE = 0.40
STIFF_TEMPERATURE = 303.15
"""From this share of modifier on, and at or below this temperature, the mobile phase is a liquid of low compressibility
and no setting is worth changing for its density (common practice, no source)."""

EQUAL_WITHIN = 2e-4
"""Differences of density below this are equal: the setting of the source is kept."""

_LOWEST, _HIGHEST = 40e5, 650e5
_DENSITY_TOLERANCE = 2e-5
_PRESSURE_TOLERANCE = 500.0
_MOST_TRIALS = 40
_USUAL_STIFFNESS = 3e-8  # 1/Pa: where the first guess of the slope starts


@dataclass(frozen=True, slots=True)
class Match:
    """One corner of the programme on both systems.

    Attributes
    ----------
    source
        The settled state on the source.
    target
        The settled state on the target at the solved setting.
    setting
        Solved outlet pressure [Pa]; the nearest end of what the model covers if there is none.
    stiffness
        d ln(mean density) / d(setting) there [1/Pa].
    found
        Whether the densities agree at the setting.
    """

    source: Settled
    target: Settled
    setting: float
    stiffness: float
    found: bool


def residual(source: Settled, target: Settled) -> float:
    """Mean density of the target over that of the source, minus one [-]."""
    return target.mean_density / source.mean_density - 1.0


def is_stiff(row: SetPoint) -> bool:
    """Whether the density of this state is nearly the same at any setting."""
    return row.share >= STIFF_SHARE - 1e-9 or row.oven_temperature <= STIFF_TEMPERATURE + 1e-6


def solve_outlet_pressures(
    sources: Sequence[Settled], plan: RunPlan, rows: Sequence[SetPoint]
) -> list[Match]:
    """Solve the outlet pressure of every corner, all corners in each call of the march.

    Parameters
    ----------
    sources
        Settled states of the source.
    plan
        The target.
    rows
        What is set on the target at the same corners; their outlet pressures are where the
        search begins, and are kept where they already agree.

    Raises
    ------
    NotCovered
        If a state lies outside the property model.
    """
    trial = [row.outlet_pressure for row in rows]
    searches = [_Search(row.outlet_pressure) for row in rows]
    states: list[Settled | None] = [None] * len(rows)
    for _ in range(_MOST_TRIALS):
        open_ones = [i for i, search in enumerate(searches) if not search.done]
        if not open_ones:
            break
        found = settled_states(
            [(plan, replace(rows[i], outlet_pressure=trial[i])) for i in open_ones]
        )
        for i, state in zip(open_ones, found, strict=True):
            states[i] = state
            trial[i] = searches[i].next(trial[i], math.log1p(residual(sources[i], state)))
    matches = []
    for source, last, search in zip(sources, states, searches, strict=True):
        assert last is not None
        state = last
        setting = state.row.outlet_pressure
        matches.append(
            Match(source, state, setting, search.slope, abs(residual(source, state)) < 2e-3)
        )
    return matches


class _Search:
    """A secant kept inside a bracket; density rises with the setting."""

    def __init__(self, start: float) -> None:
        self.start = start
        self.low, self.high = _LOWEST, _HIGHEST
        self.last: tuple[float, float] | None = None
        self.slope = _USUAL_STIFFNESS
        self.done = False

    def next(self, at: float, error: float) -> float:
        """Take the error at a setting, give the next setting to try."""
        first = self.last is None
        if self.last is not None and abs(at - self.last[0]) > 1.0:
            slope = (error - self.last[1]) / (at - self.last[0])
            if slope > 0.0:
                self.slope = slope
        self.last = (at, error)
        if abs(error) < (EQUAL_WITHIN if first else _DENSITY_TOLERANCE):
            self.done = True
            return at
        if error > 0.0:
            self.high = min(self.high, at)
        else:
            self.low = max(self.low, at)
        if self.high - self.low < _PRESSURE_TOLERANCE:
            self.done = True
            return at
        guess = at - error / self.slope
        if not self.low < guess < self.high:
            guess = 0.5 * (self.low + self.high)
        return guess


def common_setting(
    matches: Sequence[Match],
    lowest: float = 0.0,
    highest: float = math.inf,
    step: float = 1e5,
) -> tuple[float, float]:
    """The one setting that serves all corners best, and the largest difference it leaves.

    Parameters
    ----------
    matches
        Corners that count; at least one.
    lowest, highest
        Span that the setting has to stay in [Pa].
    step
        How finely settings are tried [Pa].

    Returns
    -------
    tuple of float
        Setting [Pa], and the largest relative difference of mean density by the slopes at the
        solved settings [-].
    """
    low = min(max(min(match.setting for match in matches), lowest), highest)
    high = min(max(max(match.setting for match in matches), lowest), highest)

    def worst(setting: float) -> float:
        return max(abs(match.stiffness * (setting - match.setting)) for match in matches)

    if high - low < 1.0:
        return low, worst(low)
    count = max(int((high - low) / step), 1)
    tried = [low + (high - low) * number / count for number in range(count + 1)]
    best = min(tried, key=worst)
    return best, worst(best)
