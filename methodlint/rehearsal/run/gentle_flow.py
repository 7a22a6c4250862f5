"""Flows at which a bench is started and stopped: the weakest part keeps a fifth of its rating.

The pumps do not reach their high limit either.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import cast

import numpy as np

from methodlint.rehearsal.plan.components import components_of
from methodlint.rehearsal.plan.line_settings import LineSettings, line_plan
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse_many
from methodlint.rehearsal.run.train_places import train_places

__all__ = ["HIGH_LIMIT", "RESERVE", "GentleFlow", "gentle_flows"]

RESERVE = 0.2
"""Part of its rating that the weakest part keeps, at the upper end of the band of the pressure;
common practice, no source."""

HIGH_LIMIT = "high limit"
"""Name in place of a part where the pumps would stop at their high limit."""

_PARTS = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.05)
_STEP_LENGTH = 60.0
_NO_PRESSURE = 1.0
"""Instead of 0 Pa, which a pump reaches beyond its highest flow [Pa]."""


@dataclass(frozen=True, slots=True)
class GentleFlow:
    """One steady state of the pumps.

    Attributes
    ----------
    flow
        Total set flow [m3/s].
    pressure, below, band
        At the pumps, and how far below and above it the true one may lie [Pa].
    weakest
        Name of the part that comes closest to its rating; empty if no card gives a rating.
    reserve
        What it keeps of its rating at the upper end of the band [-]; 1 without a rating.
    """

    flow: float
    pressure: float
    below: float
    band: float
    weakest: str
    reserve: float

    @property
    def enough(self) -> bool:
        """Whether the weakest part keeps `RESERVE`."""
        return self.reserve >= RESERVE


@dataclass(frozen=True, slots=True)
class GentleFlows:
    """Highest flows that keep the reserve, at most the method's; the lowest tried if none does.

    Attributes
    ----------
    rinse
        Modifier alone, at most the whole flow of the method; None for a method without modifier,
        or one whose liquid has no model.
    mixture
        The mobile phase that the method starts with.
    set_flow
        That mobile phase at the method's flow.
    """

    rinse: GentleFlow | None
    mixture: GentleFlow
    set_flow: GentleFlow


def gentle_flows(run: Rehearsal) -> GentleFlows:
    """Find the flows to start and to stop a method with; one march for all that is tried.

    Parameters
    ----------
    run
        A rehearsal that is done.
    """
    start, share = float(run.set_flow[0]), float(run.pumped_share[0])
    phase = run.plan.method_model.mobile_phase
    modifier = phase.modifier if phase is not None else None
    mixture = LineSettings(
        injects=False,
        co2=True,
        flow=start,
        share=share,
        outlet_pressure=float(run.outlet_pressure[0]),
        liquid=components_of(modifier) if modifier is not None else (),
        bypassed=False,
        length=_STEP_LENGTH,
    )
    neat = replace(mixture, co2=False, share=1.0)
    flows = [start * part for part in _PARTS]
    mixed = _tried(run, [replace(mixture, flow=flow) for flow in flows])
    rinses = _tried(run, [replace(neat, flow=flow) for flow in flows]) if neat.liquid else []
    return GentleFlows(
        rinse=_highest(rinses) if rinses else None,
        mixture=cast(GentleFlow, _highest(mixed)),
        set_flow=mixed[0],
    )


def _tried(run: Rehearsal, settings: list[LineSettings]) -> list[GentleFlow]:
    lacking = Missing("method.mobile_phase.modifier", run.plan.method)
    plans = [line_plan(one, run.plan, lacking) for one in settings]
    return [_state(one) for one in rehearse_many(plans) if one.done]


def _highest(tried: list[GentleFlow]) -> GentleFlow | None:
    return next((one for one in tried if one.enough), tried[-1] if tried else None)


def _state(run: Rehearsal) -> GentleFlow:
    found = [("", 0.0)]
    for place in train_places(run):
        if place.limit is not None:
            limit = max(float(place.limit[0]), _NO_PRESSURE)
            highest = float((place.pressure + run.pressure_band(place.pressure).above)[0])
            found.append((place.name, highest / limit))
    for number, loaded in zip(run.train.columns, run.plan.columns, strict=True):
        rating = loaded.model.drop_rating
        if rating is not None and rating.si > 0.0:
            drop = float(run.drop_over(number)[0]) * (1.0 + float(run.resistance_band.above[0]))
            found.append((f"bed of {loaded.name}", drop / rating.si))
    below, band = (float(side[0]) for side in run.pressure_band(run.pump_pressure))
    pump = float(run.pump_pressure[0])
    found += [(HIGH_LIMIT, (1.0 - RESERVE) * (pump + band) / limit) for limit in _high_limits(run)]
    weakest, load = max(found, key=lambda one: one[1])
    reserve = float(np.round(1.0 - load, 6))
    return GentleFlow(float(run.set_flow[0]), pump, below, band, weakest, reserve)


def _high_limits(run: Rehearsal) -> list[float]:
    """Pressures at which the pumps stop by themselves [Pa]."""
    limits = run.plan.method_model.pressure_limits
    loaded = run.plan.instrument
    trips = loaded.model.trips if loaded is not None else None
    found = [limits.high if limits is not None else None]
    found.append(trips.high_pressure if trips is not None else None)
    return [value.si for value in found if value is not None and value.si > 0.0]
