"""One attempt: the target's rows at a chosen flow, with solved and limited regulator settings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from methodlint.rehearsal.plan.programme import SetPoint
from methodlint.rehearsal.plan.run_plan import AIR_PRESSURE, AMBIENT
from methodlint.scaling.density_match import (
    Match,
    common_setting,
    is_stiff,
    residual,
    solve_outlet_pressures,
)
from methodlint.scaling.headroom import Load, loads_of, within
from methodlint.scaling.metering import flow_for_same_mass, share_for_mass_fraction
from methodlint.scaling.rounding import rounded_flow, rounded_pressure, rounded_share
from methodlint.scaling.rows import between
from methodlint.scaling.setting_limits import BOUNDARY_MARGIN, SettingLimits, setting_limits
from methodlint.scaling.settled import Settled, settled_states
from methodlint.transfer.sides import Sides

__all__ = ["ONE_VALUE_WITHIN", "Attempt", "attempt"]

ONE_VALUE_WITHIN = 0.01
"""One regulator setting serves all corners if it leaves no more than this difference of density
(half of what earns a caution; common practice, no source)."""


@dataclass(frozen=True)
class Attempt:
    """The target at one flow.

    Attributes
    ----------
    factor
        F2/F1 before rounding [-].
    rows
        Rows of the target with flows, shares and outlet pressures as they would be set; times
        still those of the source.
    matches
        Densities solved at every corner, before limits and rounding.
    states
        Settled states of the corners at the settings chosen.
    limits
        What limits the setting at every corner.
    limited
        Corners whose solved setting lies outside its limits.
    one_value
        Whether one setting serves the whole programme.
    beyond
        Parts that see too much pressure, with what is allowed; the worst first.
    """

    factor: float
    rows: tuple[SetPoint, ...]
    matches: tuple[Match, ...]
    states: tuple[Settled, ...]
    limits: tuple[SettingLimits, ...]
    limited: tuple[int, ...]
    one_value: bool
    beyond: tuple[tuple[Load, float], ...]
    loads: tuple[Load, ...]

    @property
    def residuals(self) -> list[float]:
        """Relative difference of mean density at every corner [-]."""
        pairs = zip(self.matches, self.states, strict=True)
        return [residual(match.source, state) for match, state in pairs]

    @property
    def worst_residual(self) -> float:
        """Largest difference among the corners where density can be matched at all [-]."""
        pairs = zip(self.residuals, self.states, strict=True)
        return max((abs(r) for r, state in pairs if not is_stiff(state.row)), default=0.0)


def attempt(sides: Sides, factor: float) -> Attempt:
    """Set the target up at one flow.

    Parameters
    ----------
    factor
        F2/F1 [-].

    Raises
    ------
    NotCovered
        If a state lies outside the property model.
    """
    rows = [replace(c, flow=rounded_flow(c.flow * factor, c.flow)) for c in sides.corners]
    matches = solve_outlet_pressures(sides.states, sides.target.plan, rows)
    if sides.metering_differs:
        for _ in range(2):
            rows = _corrected(sides, factor, matches)
            matches = solve_outlet_pressures(sides.states, sides.target.plan, rows)
    limits = _limits(sides, matches)
    settings, limited, one_value = _settings(sides, matches, limits)
    rows = [replace(row, outlet_pressure=p) for row, p in zip(rows, settings, strict=True)]
    states = settled_states([(sides.target.plan, row) for row in rows])
    whole = tuple(
        replace(
            row,
            share=rows[corner].share,
            flow=rows[corner].flow,
            outlet_pressure=rows[corner].outlet_pressure,
        )
        for row, corner in zip(sides.rows, sides.corner_of, strict=True)
    )
    loads = _worst_loads([*states, *_on_the_way(sides, whole)])
    return Attempt(
        factor=factor,
        rows=whole,
        matches=tuple(matches),
        states=tuple(states),
        limits=tuple(limits),
        limited=tuple(limited),
        one_value=one_value,
        beyond=tuple(within(loads, sides.loads)),
        loads=tuple(loads),
    )


def _corrected(sides: Sides, factor: float, matches: Sequence[Match]) -> list[SetPoint]:
    """Rows whose shares and flows mean the same masses on pumps that meter differently."""
    plan = sides.target.plan
    assert plan.fluid is not None
    liquid = (
        float(plan.fluid.modifier_density(AMBIENT, AIR_PRESSURE)) if plan.modifier_name else 800.0
    )
    first = matches[0]
    flow = factor * flow_for_same_mass(
        first.source.row.share, first.source.head_density, first.target.head_density
    )
    rows = []
    for match in matches:
        source = match.source.row
        w = match.source.w_modifier if plan.modifier_name else 0.0
        share = float(share_for_mass_fraction(w, liquid, match.target.head_density))
        share = min(max(share, 0.0), 1.0) if 0.0 < source.share < 1.0 else source.share
        rows.append(
            replace(
                source,
                share=rounded_share(share, source.share),
                flow=rounded_flow(source.flow * flow, source.flow),
                outlet_pressure=match.setting,
            )
        )
    return rows


def _limits(sides: Sides, matches: Sequence[Match]) -> list[SettingLimits]:
    policy = sides.policy.boundary_margin
    margin = policy.si if policy is not None else BOUNDARY_MARGIN
    w = [match.target.w_modifier for match in matches]
    spans: list[tuple[float, float]] = []
    for corner in range(len(matches)):
        near = {corner}
        for position, other in enumerate(sides.corner_of):
            if other == corner:
                near.update(sides.corner_of[max(position - 1, 0) : position + 2])
        spans.append((min(w[i] for i in near), max(w[i] for i in near)))
    card = sides.target.card
    return [
        setting_limits(match.target, match.source, card, span, margin)
        for match, span in zip(matches, spans, strict=True)
    ]


def _settings(
    sides: Sides, matches: Sequence[Match], limits: Sequence[SettingLimits]
) -> tuple[list[float], list[int], bool]:
    """Choose settings: the source's where stiff, one for all where that does, else one each."""
    originals = [corner.outlet_pressure for corner in sides.corners]
    low = max(limit.lowest for limit in limits)
    high = min(limit.highest for limit in limits)
    count = [i for i, match in enumerate(matches) if not is_stiff(match.source.row)]
    constant = max(originals) - min(originals) < 1.0
    if not count:
        one_value, wanted = constant, list(originals)
    else:
        setting, leaves = common_setting([matches[i] for i in count], low, max(low, high))
        best = max(
            abs(matches[i].stiffness * (limits[i].clamp(matches[i].setting) - matches[i].setting))
            for i in count
        )
        one_value = constant and leaves <= max(ONE_VALUE_WITHIN, best * 1.001)
        own = [i if i in count else _nearest(sides, i, count) for i in range(len(matches))]
        wanted = [matches[i].setting for i in own]
    limited = [
        i
        for i, limit in enumerate(limits)
        if (i in count or not count)
        and not limit.lowest - 0.5e5 <= wanted[i] <= limit.highest + 0.5e5
    ]
    if one_value and count:
        settings = [setting] * len(matches)
    elif one_value:
        settings = [min(max(wanted[0], low), max(low, high))] * len(matches)
    else:
        settings = [limit.clamp(w) for limit, w in zip(limits, wanted, strict=True)]
    kept = [
        rounded_pressure(setting, original, match.stiffness, floor=limit.lowest)
        for setting, original, match, limit in zip(
            settings, originals, matches, limits, strict=True
        )
    ]
    if one_value:
        kept = [max(kept)] * len(kept)
        return [_under(pressure, max(low, high)) for pressure in kept], limited, one_value
    kept = [_under(p, max(one.lowest, one.highest)) for p, one in zip(kept, limits, strict=True)]
    return kept, limited, one_value


def _under(pressure: float, highest: float) -> float:
    """Undo a rounding that went beyond what is allowed: down to a whole bar below it."""
    if pressure <= highest:
        return pressure
    return math.floor(highest / 1e5) * 1e5


def _nearest(sides: Sides, corner: int, among: Sequence[int]) -> int:
    """The corner of the nearest row before (else behind) whose density counts."""
    at = sides.corner_of.index(corner)
    before = [c for c in sides.corner_of[:at] if c in among]
    behind = [c for c in sides.corner_of[at:] if c in among]
    return before[-1] if before else behind[0]


def _on_the_way(sides: Sides, rows: Sequence[SetPoint]) -> list[Settled]:
    """Settled states half way along every ramp of the composition."""
    middles = [
        between(a, b, 0.5)
        for a, b in pairwise(rows)
        if not b.step and abs(a.share - b.share) > 1e-9
    ]
    return settled_states([(sides.target.plan, row) for row in middles]) if middles else []


def _worst_loads(states: Sequence[Settled]) -> list[Load]:
    worst: dict[str, Load] = {}
    for state in states:
        for load in loads_of(state.run):
            if load.name not in worst or load.share > worst[load.name].share:
                worst[load.name] = load
    return list(worst.values())
