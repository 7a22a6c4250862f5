"""What the pumps deliver in a run whose mobile phase has no model: set flows, no pressures."""

from __future__ import annotations

import numpy as np

from methodlint.fluids.co2 import properties as co2
from methodlint.hydraulics.distinct import distinct
from methodlint.rehearsal.plan.run_plan import RunPlan
from methodlint.rehearsal.plan.surroundings import booked_co2_density
from methodlint.rehearsal.run.rehearsal import Rehearsal

_POINTS = 201
_USUAL_HIGHEST = 400e5
"""Pressure [Pa] that a CO2 pump without a rating is taken to stay below; common practice, no
source."""


def metered_only(plan: RunPlan) -> Rehearsal:
    """Compute the flows of a run that lacks nothing but a model of its mobile phase.

    Parameters
    ----------
    plan
        A run that is not ready.

    Returns
    -------
    Rehearsal
        Not done. Times, set flows and masses of CO2 are there if only the model is missing; the
        CO2 is metered between the outlet pressure and the rating of its pump, and
        `metering_band` spans both.
    """
    programme = plan.programme
    if not plan.no_model or len(plan.missing) > 1 or programme is None:
        return Rehearsal(plan=plan, missing=plan.missing)
    time = distinct(np.concatenate([programme.time, np.linspace(0.0, programme.cycle, _POINTS)]))
    time = time[time <= programme.cycle]
    flow, share = programme.flow_at(time), programme.share_at(time)
    outlet = programme.outlet_pressure_at(time)
    lowest, highest = float(outlet.min()), max(_highest_pressure(plan), float(outlet.max()))
    booked = booked_co2_density(plan.metering)
    densities = np.array([booked, booked])
    if np.isnan(booked):
        densities = np.asarray(co2.density(plan.head_temperature, np.array([lowest, highest])))
    density = float(densities.mean())
    return Rehearsal(
        plan=plan,
        missing=plan.missing,
        time=time,
        set_flow=flow,
        pumped_share=share,
        outlet_pressure=outlet,
        co2_mass_flow=flow * (1.0 - share) * density,
        head_density=np.full(time.size, density),
        metering_band=float(np.ptp(densities)) / 2.0 / density,
    )


def _highest_pressure(plan: RunPlan) -> float:
    assert plan.instrument is not None
    pump = plan.instrument.model.co2_pump
    rating = pump.pressure_rating if pump is not None else None
    return rating.si if rating is not None else _USUAL_HIGHEST
