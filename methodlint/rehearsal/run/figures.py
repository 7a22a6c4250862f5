"""The figures that sum a run up, in the units that people read them in."""

from __future__ import annotations

import numpy as np

from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["run_figures"]


def run_figures(run: Rehearsal) -> dict[str, float | None]:
    """Give pressures [bar], densities [kg/m3], times [min] and amounts [g, mL] of a run, by name."""
    drop = run.column_inlet_pressure - run.column_outlet_pressure
    density = run.mean_column_density
    start = run.start_row
    return {
        "outlet_pressure_at_start": float(run.outlet_pressure[start]) / 1e5,
        "flow_at_start": float(run.set_flow[start]) * 6e7,
        "modifier_share_at_start": float(run.pumped_share[start]) * 100.0,
        "highest_pump_pressure": float(np.max(run.pump_pressure)) / 1e5,
        "highest_column_inlet_pressure": float(np.max(run.column_inlet_pressure)) / 1e5,
        "highest_column_drop": float(np.max(drop)) / 1e5,
        "lowest_column_outlet_pressure": float(np.min(run.column_outlet_pressure)) / 1e5,
        "least_boundary_margin": float(np.min(run.least_margin)) / 1e5,
        "mean_column_density_at_start": float(density[start]),
        "lowest_mean_column_density": float(np.min(density)),
        "hold_up_time_at_start": float(run.hold_up_time[start]) / 60.0,
        "cycle_time": run.programme.cycle / 60.0,
        "co2_per_run": run.co2_per_cycle * 1e3,
        "modifier_per_run": run.modifier_per_cycle * 1e6,
    }
