"""What was predicted for a reading, and the flow resistance with which it would be met."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.train import Train
from methodlint.rehearsal.plan.run_plan import RunPlan
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse_many

__all__ = ["Predicted", "predict"]

FloatArray = npt.NDArray[np.float64]

FACTORS = np.array([0.25, 0.4, 0.6, 0.8, 1.0, 1.25, 1.6, 2.2, 3.2, 5.0])
"""Flow resistances of the column over that of its card at which a run is computed [-]."""

_OWN = int(np.argmin(np.abs(FACTORS - 1.0)))


@dataclass(frozen=True)
class Predicted:
    """One method on one bench with one column.

    Attributes
    ----------
    start, highest
        Pressure at the pumps at the start and at its highest [Pa], at each of `FACTORS`.
    start_band, highest_band
        Distances below and above [Pa], with the card's resistance.
    outlet
        Pressure at the regulator at the start [Pa].
    share, highest_share
        Modifier share at the start, and in the column when the pressure is highest [-].
    oven
        Temperature of the oven at the start [K].
    hold_up_time
        At the start [s].
    co2_per_cycle, overhead_rate
        CO2 of a run [kg], and its flow between runs [kg/s].
    flow_resistance
        Of the card [-], superficial basis.
    particle_size
        [m].
    drop
        Pressure lost in the column at the start [Pa].
    run
        The rehearsal with the card's resistance.
    """

    start: FloatArray
    highest: FloatArray
    start_band: tuple[float, float]
    highest_band: tuple[float, float]
    outlet: float
    share: float
    highest_share: float
    oven: float
    hold_up_time: float
    co2_per_cycle: float
    overhead_rate: float
    flow_resistance: float
    particle_size: float
    drop: float
    run: Rehearsal = field(repr=False, compare=False)

    @property
    def at_start(self) -> float:
        """Predicted at the start with the card's resistance [Pa]."""
        return float(self.start[_OWN])

    @property
    def at_highest(self) -> float:
        """Predicted at its highest with the card's resistance [Pa]."""
        return float(self.highest[_OWN])

    @property
    def tubes(self) -> float:
        """Pressure lost outside the column at the start [Pa]."""
        return self.at_start - self.outlet - self.drop

    def factor(
        self, pressure: float, outlet: float | None, *, highest: bool = False
    ) -> float | None:
        """Flow resistance over that of the card that meets a reading [-].

        Parameters
        ----------
        pressure
            Read at the pumps [Pa].
        outlet
            Read at the regulator [Pa]; as set if None. What it is off adds to the whole train.

        Returns
        -------
        float or None
            None if no column would, from a quarter to five times the resistance of the card.
        """
        nodes = self.highest if highest else self.start
        at = pressure - (0.0 if outlet is None else outlet - self.outlet)
        if not nodes[0] <= at <= nodes[-1]:
            return None
        return float(np.exp(np.interp(at, nodes, np.log(FACTORS))))


def predict(plans: Sequence[RunPlan]) -> list[Predicted | None]:
    """Rehearse runs with other flow resistances of their columns, all in one call.

    Returns
    -------
    list of Predicted or None
        None where a figure is missing.
    """
    ready = [number for number, plan in enumerate(plans) if plan.ready]
    rows = [_with_factor(plans[number], float(factor)) for number in ready for factor in FACTORS]
    runs = rehearse_many(rows)
    found: list[Predicted | None] = [None] * len(plans)
    for place, number in enumerate(ready):
        own = runs[place * FACTORS.size : (place + 1) * FACTORS.size]
        if not all(run.done for run in own):
            continue
        run, plan = own[_OWN], plans[number]
        start = run.start_row
        highest = run.highest(run.pump_pressure)
        top = int(np.argmax(run.pump_pressure))
        below, above = (float(side[start]) for side in run.pressure_band(run.pump_pressure))
        assert plan.train is not None
        bed = plan.train.segments[plan.analytical_column]
        found[number] = Predicted(
            # A little noise of the march must not turn the order of the nodes.
            np.maximum.accumulate([float(one.pump_pressure[one.start_row]) for one in own]),
            np.maximum.accumulate([float(one.pump_pressure.max()) for one in own]),
            (below, above),
            (highest.band if highest.below is None else highest.below, highest.band),
            float(run.outlet_pressure[start]),
            float(run.pumped_share[start]),
            float(run.share[top, run.slices_of(plan.analytical_column)].mean()),
            float(run.programme.oven_temperature[0]),
            float(run.hold_up_time[start]),
            run.co2_per_cycle,
            float(run.co2_mass_flow[0]),
            bed.flow_resistance,
            bed.particle_size,
            float(run.drop_over(plan.analytical_column)[start]),
            run,
        )
    return found


def _with_factor(plan: RunPlan, factor: float) -> RunPlan:
    assert plan.train is not None
    segments = list(plan.train.segments)
    bed = segments[plan.analytical_column]
    segments[plan.analytical_column] = replace(bed, flow_resistance=bed.flow_resistance * factor)
    return replace(plan, train=Train(tuple(segments)))
