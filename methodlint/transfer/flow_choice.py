"""The flow: by geometry or by duration, as fast as wanted, as slow as needed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from methodlint.documents.quantities.format import number, show
from methodlint.rehearsal.plan.programme import SetPoint
from methodlint.scaling.allowances import AllowanceSet
from methodlint.scaling.density_match import CAUTION_ABOVE, FAULT_ABOVE
from methodlint.scaling.geometry import flow_ratio, volume_ratio
from methodlint.scaling.headroom import Load
from methodlint.scaling.rows import changes_composition
from methodlint.scaling.settled import NotCovered
from methodlint.transfer.attempt import Attempt, attempt
from methodlint.transfer.sides import Sides

__all__ = [
    "Ceiling",
    "FlowChoice",
    "Keep",
    "choose_flow",
    "flow_words",
    "load_words",
    "undelivered",
]

Keep = Literal["separation", "duration"]

SLOWEST, FASTEST = 0.25, 2.0
"""Flow over the flow by geometry that is tried without allowances: slower, diffusion along the
column spoils the plates; faster, mass transfer does (common practice, no source)."""

_TRIALS = 8
_SHRINK = 0.995
_NEAR_ENOUGH = 1.02
"""A flow that is refused over the one proposed: the steps downwards are long, and what they leave
is taken back by halving."""


@dataclass(frozen=True, slots=True)
class Ceiling:
    """A highest flow [-, F2/F1] and why, in words."""

    factor: float
    because: str


@dataclass(frozen=True)
class FlowChoice:
    """The flow of the target.

    Attributes
    ----------
    geometry
        F2/F1 by geometry alone [-].
    wanted
        F2/F1 that was asked for by what is kept, or by shortening [-].
    first
        What would happen at the flow by geometry or duration; None where no model covers it.
    attempt
        What is proposed; None if no flow is feasible.
    limited_by
        What made the flow lower than wanted; empty if nothing did.
    binding
        Constraint that no flow satisfies; empty if one does.
    """

    geometry: float
    wanted: float
    first: Attempt | None
    attempt: Attempt | None
    limited_by: str = ""
    binding: str = ""


def choose_flow(
    sides: Sides,
    keep: Keep,
    shorten: bool,
    allowances: AllowanceSet,
    ceiling: Ceiling | None = None,
) -> FlowChoice:
    """Find the flow, with everything that depends on it solved anew at every trial.

    Parameters
    ----------
    keep, shorten
        What is kept, and whether limits are to be used up.
    allowances
        Bound the flow where they speak of it.
    ceiling
        A flow that may not be exceeded, known from a rehearsal of the whole run.

    Raises
    ------
    NotCovered
        If no model covers the target at the flow that was asked for.
    """
    geometry = flow_ratio(sides.source.bed, sides.target.bed)
    if keep == "duration":
        wanted = volume_ratio(sides.source.bed, sides.target.bed, hold_up=True)
    else:
        wanted = geometry
    if abs(wanted - 1.0) < 1e-9:
        wanted = 1.0
    slowest, fastest = SLOWEST * geometry, FASTEST * geometry
    allowed = allowances.of("flow", isocratic=not changes_composition(sides.rows))
    if allowed is not None and allowed.lowest is not None and allowed.highest is not None:
        slowest, fastest = geometry * (1.0 + allowed.lowest), geometry * (1.0 + allowed.highest)
    first = attempt(sides, wanted)
    tolerated = FAULT_ABOVE
    begin = wanted
    if shorten:
        begin = max(fastest, wanted)
        tolerated = max(CAUTION_ABOVE, first.worst_residual * 1.001)
    limited = ""
    wanted_flow = begin
    if ceiling is not None and ceiling.factor < begin:
        begin, limited = ceiling.factor, ceiling.because
    factor = begin
    refused: float | None = None
    tried = first if begin == wanted else None
    for _ in range(_TRIALS):
        try:
            tried = tried or attempt(sides, factor)
        except NotCovered as gap:
            limited, tried, refused = str(gap), None, factor
            factor = max(0.8 * factor, slowest)
            if refused <= slowest:
                break
            continue
        reason, following = _too_fast(sides, tried, factor, tolerated)
        if not reason:
            if refused is not None:
                tried = _fastest_between(sides, tried, refused, tolerated)
            return FlowChoice(geometry, wanted_flow, first, tried, limited)
        limited, refused = limited or reason, factor
        if shorten and following < wanted:
            # Nothing to gain: what held for the flow that geometry gives has to do.
            shorten, tolerated = False, FAULT_ABOVE
            if factor > wanted:
                following, refused = wanted, None
        factor, tried = following * _SHRINK if following < wanted else following, None
        if factor < slowest:
            if factor <= 0.0 or refused is None or refused <= slowest:
                break
            # the long step went past flows that may do
            factor = slowest
    return FlowChoice(
        geometry, wanted_flow, first, None, binding=_binding(limited, slowest, geometry)
    )


def _fastest_between(sides: Sides, found: Attempt, refused: float, tolerated: float) -> Attempt:
    """The fastest flow that is not refused, between one that was found and one that was."""
    while refused / found.factor > _NEAR_ENOUGH:
        factor = math.sqrt(refused * found.factor)
        try:
            tried = attempt(sides, factor)
        except NotCovered:
            refused = factor
            continue
        if _too_fast(sides, tried, factor, tolerated)[0]:
            refused = factor
        else:
            found = tried
    return found


def _binding(limited: str, slowest: float, geometry: float) -> str:
    return f"{limited}; even at {slowest / geometry:.0%} of the flow by geometry"


def _too_fast(sides: Sides, tried: Attempt, factor: float, tolerated: float) -> tuple[str, float]:
    """Why a flow is too high, and what to try next; nothing if it is not."""
    highest, words = _highest_flow(sides, tried)
    if highest < 1.0 - 1e-9:
        return words, factor * highest
    if tried.beyond:
        load, allowed = tried.beyond[0]
        loss = load.pressure - load.floor
        if loss <= 0.0 or load.floor >= allowed:
            # The regulator's setting alone is too much for this part: no flow cures it.
            return load_words(load, allowed), 0.0
        room = (allowed - load.floor) / loss
        return load_words(load, allowed), factor * min(max(room, 0.3), 0.99)
    if tried.worst_residual > tolerated:
        corner = max(range(len(tried.states)), key=lambda i: abs(tried.residuals[i]))
        limit = tried.limits[corner]
        wanted = tried.matches[corner].setting
        held = limit.highest_because if wanted > limit.highest else limit.lowest_because
        text = (
            f"density {tried.residuals[corner] * 100:+.1f} % at "
            f"{show(tried.states[corner].row.share, 'share')} modifier: the regulator would have to "
            f"be at {show(wanted, 'pressure')}, held by {held}"
        )
        return text, factor * min(max(tolerated / tried.worst_residual, 0.6), 0.95)
    return "", factor


def load_words(load: Load, allowed: float) -> str:
    """Say which part sees too much pressure."""
    return (
        f"{load.name}: {show(load.pressure, 'pressure')} (band +{show(load.band, 'pressure')}), "
        f"at most {show(allowed, 'pressure')} of {show(load.limit, 'pressure')} allowed"
    )


def _highest_flow(sides: Sides, tried: Attempt) -> tuple[float, str]:
    """Share of this flow that the pumps can deliver [-]."""
    card = sides.target.card
    found = [(1.0, "")]
    for words, pump in (("CO2 pump", card.co2_pump), ("modifier pump", card.modifier_pump)):
        if pump is None or pump.highest_flow is None:
            continue
        for row in tried.rows:
            own = _own_flow(words, row)
            if own > pump.highest_flow.si * (1.0 + 1e-9):
                text = (
                    f"{words}: {show(own, 'volume flow')} needed, it delivers "
                    f"{show(pump.highest_flow.si, 'volume flow')}"
                )
                found.append((pump.highest_flow.si / own, text))
    for words, pump in (("CO2 pump", card.co2_pump), ("modifier pump", card.modifier_pump)):
        if pump is None or not pump.envelope:
            continue
        top = pump.envelope[-1].flow.si
        flow = max(_own_flow(words, row) for row in tried.rows)
        if flow > top * (1.0 + 1e-9):
            text = f"{words}: {show(flow, 'volume flow')} needed, its envelope ends at {show(top, 'volume flow')}"
            found.append((top / flow, text))
    return min(found, key=lambda item: item[0])


def _own_flow(pump: str, row: SetPoint) -> float:
    """What one pump delivers of the flow of this row [m3/s]."""
    return row.flow * (1.0 - row.share if pump == "CO2 pump" else row.share)


def undelivered(sides: Sides, tried: Attempt) -> str:
    """Say which pump does not deliver its part of this flow at any pressure; empty if both do."""
    return _highest_flow(sides, tried)[1]


def flow_words(factor: float, geometry: float) -> str:
    """Say how a flow compares with the one by geometry."""
    return f"{number(factor / geometry * 100)} % of the flow by geometry"
