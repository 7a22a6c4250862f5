"""A run beside the same train in finite volumes: six cases, from no change to a fast return.

Geometry and fluid are alike in both, so that what differs is how fronts, mixer and flow are
followed. The limits are those of the physics asked for: 3 % of the drop, 0.05 of mass fraction.
"""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.rehearsal.run.fronts import late_pressures
from methodlint.rehearsal.run.rehearsal import Rehearsal
from tests.rehearsal.finite_volumes import History, simulate
from tests.rehearsal.runs import rehearsed

OUTLET = 150e5
FINE = "---\nkind: column\nlength: 50 mm\nparticle_size: 1.7 um\n"
SHORT = "---\nkind: column\nlength: 50 mm\n"


def method(flow: float, ends: float, rows: str, column: str = "") -> str:
    """Rows of `time share`, with `!` behind a step."""
    table = []
    for row in rows.split(", "):
        time, share = row.rstrip("!").split()
        step = ", step: true" if row.endswith("!") else ""
        table.append(f"  - {{time: {time} min, modifier_share: {share} % v/v{step}}}\n")
    head = f"kind: method\nflow: {flow} mL/min\noutlet_pressure: 150 bar\nsettling_time: null\n"
    return f"{head}run_length: {ends} min\nprogramme:\n{''.join(table)}{column}"


CASES = {
    "isocratic 3 um": method(1.5, 0.5, "0 20"),
    "isocratic 1.7 um": method(1.0, 0.5, "0 20", FINE),
    "step": method(1.5, 3, "0 5, 0.5 40!"),
    "gradient 3 um": method(1.5, 6, "0 5, 3 40, 4 40, 4.3 5"),
    "gradient 1.7 um": method(1.2, 4, "0 5, 2 50, 2.5 50, 2.7 5", FINE),
    "fast return": method(2.0, 6, "0 5, 3 50, 4 50, 4.05 5"),
}


def compare(text: str, in_column: int = 100) -> tuple[Rehearsal, History]:
    """Rehearse, simulate, and hold one to the other."""
    run = rehearsed(text)
    programme = run.programme

    def settings(time: float) -> tuple[float, float, float]:
        return float(programme.share_at(time)), float(programme.flow_at(time)), OUTLET

    held = simulate(run, settings, programme.cycle, in_column)
    end = run.slices_of(run.plan.analytical_column).stop - 1
    pressure = np.interp(held.time, run.time, run.pump_pressure)
    fraction = np.interp(held.time, run.time, run.w_modifier[:, end])
    off = (pressure - held.pump_pressure) / (held.pump_pressure - OUTLET)
    assert np.max(np.abs(off)) < 0.03
    assert np.max(np.abs(fraction - held.outlet_fraction)) < 0.05
    assert np.max(run.pump_pressure) == pytest.approx(np.max(held.pump_pressure), rel=0.01)
    return run, held


@pytest.mark.long
@pytest.mark.parametrize("case", CASES)
def test_pressure_and_composition_follow_the_finite_volumes(case: str) -> None:
    compare(CASES[case])


def test_a_step_follows_the_finite_volumes() -> None:
    """A short column and few cells: the front is wider than a bed of 100 cells would make it."""
    compare(method(1.5, 1.2, "0 10, 0.1 30!", SHORT), in_column=24)


@pytest.mark.long
def test_the_highest_pressure_comes_after_the_return() -> None:
    """What enters contracts less than what fills the column, which still is viscous."""
    run, held = compare(CASES["fast return"])
    end_of_plateau = 4.0 * 60.0
    before = float(np.max(run.pump_pressure[run.time < end_of_plateau]))
    assert np.max(run.pump_pressure) > 1.01 * before
    assert run.time[np.argmax(run.pump_pressure)] > end_of_plateau
    assert held.time[np.argmax(held.pump_pressure)] > end_of_plateau


def test_pressures_follow_a_jump_and_a_ramp_by_a_lag_of_first_order() -> None:
    """A jump leaves exp(-t), a ramp of slope 1 lags by 1 - exp(-t) (textbook, first order)."""
    time = np.array([0.0, 1e-6, 1.0, 2.0, 3.0, 5.0])
    jump, ramp = np.where(time > 0.0, 11.0, 1.0), time
    faces, lag = np.stack([jump, ramp, np.zeros(6)], axis=1), np.ones(6)
    late = late_pressures(time, faces, lag)
    assert late[:, 0] == pytest.approx(11.0 - 10.0 * np.exp(-time), abs=1e-4)
    assert late[:, 1] == pytest.approx(time - 1.0 + np.exp(-time), abs=1e-4)
    assert (late[:, 2] == 0.0).all()
