"""Settled states: one composition everywhere, pumped for long enough, at one setting."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from methodlint.hydraulics.calibration import calibrate_column
from methodlint.hydraulics.metering import Metering
from methodlint.hydraulics.train import Train
from methodlint.rehearsal.plan.programme import SetPoint
from methodlint.rehearsal.plan.run_plan import AIR_PRESSURE, AMBIENT, RunPlan
from methodlint.rehearsal.plan.surroundings import booked_co2_density
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse_many
from methodlint.scaling.rows import as_constant

__all__ = ["NotCovered", "Settled", "calibrated", "settled_states"]


class NotCovered(ValueError):
    """A state lies where no model holds, or a figure for it is missing."""


@dataclass(frozen=True, slots=True)
class Settled:
    """One settled state of a flow train.

    Attributes
    ----------
        What is set.
    mean_density
        Averaged over the column's volume [kg/m3].
    inlet_density, outlet_density
        In the first and last slice of the column [kg/m3].
    hold_up_time
        Mass of mobile phase in the column over mass flow [s].
    pump_pressure, inlet_pressure, outlet_pressure
        At the pumps and at both ends of the column [Pa].
    pressure_band
        Half width of the band of the pump pressure [Pa].
    w_modifier
        Mass fraction in the column [-].
    mass_flow
        [kg/s].
    head_density
        Behind a set millilitre of CO2 [kg/m3].
    outlet_compressibility
        [1/Pa].
    run
        The rehearsal of this state, one row.
    """

    row: SetPoint
    run: Rehearsal

    @property
    def mean_density(self) -> float:
        return float(self.run.mean_column_density[0])

    @property
    def inlet_density(self) -> float:
        return float(self.run.density[0, self.run.slices_of(self.run.plan.analytical_column)][0])

    @property
    def outlet_density(self) -> float:
        return float(self.run.density[0, self.run.slices_of(self.run.plan.analytical_column)][-1])

    @property
    def hold_up_time(self) -> float:
        return float(self.run.hold_up_time[0])

    @property
    def pump_pressure(self) -> float:
        return float(self.run.pump_pressure[0])

    @property
    def inlet_pressure(self) -> float:
        return float(self.run.column_inlet_pressure[0])

    @property
    def outlet_pressure(self) -> float:
        return float(self.run.column_outlet_pressure[0])

    @property
    def pressure_band(self) -> float:
        return float(self.run.pressure_band(self.run.pump_pressure).above[0])

    @property
    def w_modifier(self) -> float:
        part = self.run.slices_of(self.run.plan.analytical_column)
        return float(self.run.w_modifier[0, part].mean())

    @property
    def mass_flow(self) -> float:
        return float(self.run.co2_mass_flow[0] + self.run.modifier_mass_flow[0])

    @property
    def head_density(self) -> float:
        return float(self.run.head_density[0])

    @property
    def outlet_compressibility(self) -> float:
        return float(self.run.outlet_compressibility[0])


def settled_states(requests: Sequence[tuple[RunPlan, SetPoint]]) -> list[Settled]:
    """March the settled states of many rows, of any plans, in one call.

    Raises
    ------
    NotCovered
        If a state lies outside the property model, or the plan lacks a figure.
    """
    runs = rehearse_many([replace(plan, programme=as_constant(row)) for plan, row in requests])
    for run in runs:
        if run.missing:
            first = run.missing[0]
            raise NotCovered(first.reason or f"{first.where} is missing")
    return [Settled(row, run) for (_, row), run in zip(requests, runs, strict=True)]


def calibrated(plan: RunPlan, measured: Sequence[tuple[float, SetPoint]]) -> RunPlan:
    """A plan whose column has the flow resistance that measured pump pressures speak of.

    Parameters
    ----------
    measured
        Pump pressures [Pa] and the settled state that each was read at.

    Raises
    ------
    ValueError
        If the rest of the train alone needs a pressure that was measured.
    """
    assert plan.train is not None
    assert plan.fluid is not None
    liquid = (
        float(plan.fluid.modifier_density(AMBIENT, AIR_PRESSURE)) if plan.modifier_name else 800.0
    )
    found = []
    for pressure, state in measured:
        settled = settled_states([(plan, state)])[0]
        booked = booked_co2_density(plan.metering)
        result = calibrate_column(
            plan.fluid,
            plan.train,
            plan.analytical_column,
            pressure,
            Metering(
                state.flow * (1.0 - state.share),
                state.flow * state.share,
                liquid,
                plan.head_temperature,
                booked,
            ),
            state.outlet_pressure,
            state.share,
            settled.run.temperature[0],
        )
        found.append(result.flow_resistance)
    resistance = float(np.exp(np.mean(np.log(found))))
    return with_flow_resistance(plan, resistance)


def with_flow_resistance(plan: RunPlan, resistance: float, band: float = 0.10) -> RunPlan:
    """A plan whose column has this flow resistance, superficial basis [-].

    The band is that of a calibration used some way from the composition it was made at: between
    5 % at that composition and 15 % at double or half the viscosity.
    """
    assert plan.train is not None
    segments = list(plan.train.segments)
    column = plan.analytical_column
    segments[column] = replace(segments[column], flow_resistance=resistance)
    train = Train(tuple(segments))
    return replace(plan, train=train, resistance_band=band, calibrations=(), not_calibrated="")


def flow_resistance_of(plan: RunPlan) -> float:
    """Flow resistance of the column, superficial basis [-]."""
    assert plan.train is not None
    return plan.train.segments[plan.analytical_column].flow_resistance
