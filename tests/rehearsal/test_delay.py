"""Composition arrives when the volume in front of a place has been pumped, not before.

The figures (step 5 to 40 % at 1.5 mL/min, dwell 0.52 mL, hold-up 0.69 mL: flat until about
0.35 min, rising until about 0.81 min) are volumes over flow: 0.52/1.5 = 0.347 min and
(0.52 + 0.69)/1.5 = 0.807 min. Arithmetic, no source needed.
"""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.rehearsal.run.arrival import unretained_time
from methodlint.rehearsal.run.rehearsal import Rehearsal
from tests.rehearsal.runs import rehearsed

STEP = """
kind: method
oven_temperature: 40 degC
outlet_pressure: 150 bar
flow: 1.5 mL/min
programme:
  - {time: 0 min, modifier_share: 5 % v/v}
  - {time: 0.001 min, modifier_share: 40 % v/v, step: true}
run_length: 3 min
settling_time: null
---
kind: instrument
train:
  - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
  - {part: tube, name: injector to column, length: 0.3 m, bore: 0.15 mm}
  - {part: column}
  - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar, detector: UV}
  - {part: tube, name: cell to regulator, length: 0.3 m, bore: 0.25 mm}
  - {part: regulator, name: regulator}
"""


@pytest.fixture(scope="module")
def step() -> Rehearsal:
    return rehearsed(STEP)


def pressure_at(run: Rehearsal, minutes: float) -> float:
    return float(np.interp(minutes * 60.0, run.time, run.pump_pressure))


def test_pressure_is_flat_until_the_dwell_volume_has_gone_by(step: Rehearsal) -> None:
    start = pressure_at(step, 0.0)
    # CO2 and modifier meter a little more or less mass at once; the column does not see it yet.
    assert pressure_at(step, 0.32) == pytest.approx(start, rel=0.03)
    full = pressure_at(step, 3.0)
    assert full - start > 20e5
    assert pressure_at(step, 0.32) - start < 0.1 * (full - start)


def test_pressure_rises_until_the_column_is_full(step: Rehearsal) -> None:
    start, full = pressure_at(step, 0.0), pressure_at(step, 3.0)
    half_way = pressure_at(step, (0.347 + 0.807) / 2)
    assert 0.3 < (half_way - start) / (full - start) < 0.7
    assert pressure_at(step, 0.75) < full - 0.03 * (full - start)
    assert pressure_at(step, 0.84) == pytest.approx(full, rel=0.01)


def test_the_worst_moment_comes_after_the_last_row_of_the_programme(step: Rehearsal) -> None:
    worst = step.highest(step.pump_pressure)
    assert worst.time > step.programme.last_row + 0.75 * 60.0
    assert worst.time < 0.9 * 60.0


def test_a_flow_step_moves_the_arrival(step: Rehearsal) -> None:
    slower = rehearsed(
        STEP.replace(
            "{time: 0.001 min, modifier_share: 40 % v/v, step: true}",
            "{time: 0.001 min, modifier_share: 40 % v/v, flow: 0.75 mL/min, step: true}",
        )
    )
    # At half the flow the column is full at twice the time: 1.21 mL / 0.75 mL/min = 1.61 min.
    full = pressure_at(slower, 3.0)
    assert pressure_at(slower, 1.3) < full - 5e5
    assert pressure_at(slower, 1.7) == pytest.approx(full, rel=0.01)


MIXER = 0.4e-6
FLOW = 1.5e-6 / 60.0
SLOW_RAMP = """  - {time: 20 min, modifier_share: 45 % v/v}
run_length: 20 min
"""


def with_mixer(card: str = "", changes: str = STEP) -> Rehearsal:
    mixer = "train:\n  - {part: mixer, name: mixer, volume: 0.4 mL}\n"
    return rehearsed(changes.replace("train:\n", card + mixer, 1))


def share_at_inlet(run: Rehearsal, minutes: np.ndarray) -> np.ndarray:
    inlet = run.slices_of(run.train.columns[0]).start
    return np.interp(minutes * 60.0, run.time, run.share[:, inlet])


def test_a_mixer_smooths_the_step() -> None:
    """Plug and stirred tank in series (Levenspiel 1999): 1 - exp(-(v - plug)/mixer) has come."""
    mixed = with_mixer()
    time = np.linspace(0.0, 180.0, 400)
    # The dwell volume of 0.52 mL holds the mixer of 0.4 mL, which leaves a plug of 0.12 mL.
    behind = np.maximum((time - 0.06) * FLOW - 0.12e-6, 0.0)
    wanted = 0.40 - 0.35 * np.exp(-behind / MIXER)
    arrived = mixed.programme.delayed_share(time, np.array([mixed.plug_volume]))[:, 0]
    np.testing.assert_allclose(arrived, wanted, atol=0.35 * 0.01)
    # In the run warm mobile phase moves a few per cent faster than the pumps' cold liquid.
    np.testing.assert_allclose(share_at_inlet(mixed, time / 60.0), wanted, atol=0.35 * 0.07)


def test_a_ramp_arrives_late_by_the_dwell_volume_with_or_without_a_mixer(step: Rehearsal) -> None:
    """A stirred tank delays a ramp by its own volume (Levenspiel 1999), and so does a plug."""
    head, rest = STEP.split("  - {time: 0.001 min")
    ramp = head + SLOW_RAMP + rest.split("run_length: 3 min\n")[1]
    minutes = np.linspace(4.0, 18.0, 30)
    delays = []
    for run in (rehearsed(ramp), with_mixer("", ramp)):
        assert run.dwell_volume == pytest.approx(0.52e-6)
        time = run.programme.delayed_share(minutes * 60.0, np.array([run.plug_volume]))[:, 0]
        np.testing.assert_allclose(time, 0.05 + 0.40 * (minutes - 0.52 / 1.5) / 20.0, atol=3e-5)
        late = minutes - (share_at_inlet(run, minutes) - 0.05) * 20.0 / 0.40
        delays.append(float(late.mean()) * 1.5)
    # The middle of the first of the column's 30 slices lies 0.0115 mL behind its inlet; warm
    # mobile phase moves up to 7 % faster than the pumps' cold liquid.
    assert delays == pytest.approx([0.53, 0.53], rel=0.07)
    assert delays[0] == pytest.approx(delays[1], rel=0.05)
    assert step.plug_volume == step.dwell_volume


def test_half_of_a_step_arrives_when_a_reading_at_half_height_says() -> None:
    run = with_mixer("dwell_measured_by: step at half height\n")
    time = np.linspace(0.0, 60.0, 5000)
    share = run.programme.delayed_share(time, np.array([run.plug_volume]))[:, 0]
    half = float(np.interp(0.225, share, time)) / 60.0
    assert half == pytest.approx(0.001 + 0.52 / 1.5, abs=0.004)
    assert run.dwell_volume == pytest.approx(0.52e-6 + (1.0 - np.log(2.0)) * MIXER)


def test_parts_without_a_measured_dwell_volume_are_the_dwell_volume() -> None:
    run = with_mixer("dwell_volume: null\ndwell_measured_by: parts\n")
    tube = np.pi / 4.0 * 0.15e-3**2 * 0.3
    assert run.dwell_volume == pytest.approx(MIXER + 10e-9 + tube)


def test_a_mixer_beyond_the_measured_dwell_volume_keeps_the_volumes_of_the_parts() -> None:
    run = with_mixer("dwell_volume: 0.3 mL\n")
    assert run.dwell_volume > MIXER
    assert run.plug_volume == pytest.approx(run.dwell_volume - MIXER)


def test_co2_used_is_the_integral_of_its_mass_flow(step: Rehearsal) -> None:
    fine = np.linspace(0.0, step.time[-1], 20001)
    mass = np.interp(fine, step.time, step.co2_mass_flow)
    integral = float(np.sum(np.diff(fine) * (mass[1:] + mass[:-1]) / 2))
    assert step.co2_per_cycle == pytest.approx(integral, rel=1e-3)
    assert step.co2_per_cycle == pytest.approx(
        float(np.mean(step.co2_mass_flow)) * step.time[-1], rel=0.2
    )


def test_settling_returns_to_the_start() -> None:
    run = rehearsed(STEP.replace("settling_time: null", "settling_time: 4 min"))
    assert run.time[-1] == pytest.approx(7 * 60.0)
    assert run.pump_pressure[-1] == pytest.approx(run.pump_pressure[0], rel=0.01)


CONSTANT = """
kind: method
flow: {flow} mL/min
programme:
  - {{time: 0 min, modifier_share: 20 % v/v}}
  - {{time: {step} min, modifier_share: 20 % v/v, flow: {then} mL/min, step: true}}
run_length: 10 min
"""


def test_what_is_not_retained_takes_the_hold_up_time() -> None:
    run = rehearsed(CONSTANT.format(flow=1.5, step=5, then=1.5))
    for injected in (0.0, 60.0):
        assert unretained_time(run, injected) == pytest.approx(float(run.hold_up_time[0]), rel=2e-3)


def test_half_of_the_bed_at_half_of_the_flow_takes_as_long_as_all_at_the_whole() -> None:
    """0.2 min at 0.75 mL/min pass about a quarter of 0.69 mL by mass, the rest flows at 1.5."""
    slow = float(rehearsed(CONSTANT.format(flow=0.75, step=5, then=0.75)).hold_up_time[0])
    fast = float(rehearsed(CONSTANT.format(flow=1.5, step=5, then=1.5)).hold_up_time[0])
    run = rehearsed(CONSTANT.format(flow=0.75, step=0.2, then=1.5))
    expected = 12.0 + (1.0 - 12.0 / slow) * fast
    assert unretained_time(run) == pytest.approx(expected, rel=0.03)


def test_what_is_injected_late_meets_the_later_flow() -> None:
    run = rehearsed(CONSTANT.format(flow=0.75, step=2, then=1.5))
    fast = float(rehearsed(CONSTANT.format(flow=1.5, step=5, then=1.5)).hold_up_time[0])
    assert unretained_time(run, 180.0) == pytest.approx(fast, rel=0.01)
