"""Makeup that joins before the regulator and splitters change what flows behind them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse_many
from tests.rehearsal.runs import planned, rehearsed

TRAIN = """---
kind: instrument
train:
  - {part: mixer, name: mixer, volume: 0.2 mL}
  - {part: tube, name: mixer to column, length: 0.3 m, bore: 0.15 mm}
  - {part: column}
  - {part: cell, name: UV cell, volume: 11 uL}
  - PART
  - {part: tube, name: last tube, length: 3 m, bore: 0.15 mm}
  - {part: regulator, name: regulator}
"""
ISOCRATIC = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 20 % v/v}\n"
MAKEUP = "makeup: {liquid: LIQUID, flow: 0.5 mL/min, tee: before the regulator}\n"
TEE = TRAIN.replace("PART", "{part: tee, name: tee}")


def last_tube(run: Rehearsal) -> float:
    """Pressure lost in the tube behind the tee or the splitter [Pa]."""
    return float(run.drop_over(run.train.index("last tube"))[0])


def test_makeup_adds_its_mass_behind_the_tee_and_nowhere_else() -> None:
    plain = rehearsed(ISOCRATIC + TEE)
    run = rehearsed(ISOCRATIC + MAKEUP.replace("LIQUID", "methanol") + TEE)
    # 0.5 mL/min of methanol, 791.4 kg/m3 at 20 degC (CRC Handbook)
    added = 791.4 * 0.5e-6 / 60.0
    assert run.makeup_mass_flow[0] == pytest.approx(added, rel=2e-3)
    tee = run.slices_of(run.train.index("tee")).start
    assert run.mass_flow[0, tee:] - run.mass_flow[0, tee - 1] == pytest.approx(added, rel=2e-3)
    assert run.mass_flow[0, :tee] == pytest.approx(run.mass_flow[0, 0], rel=1e-9)
    assert last_tube(run) > 1.2 * last_tube(plain)
    # mass balance at the tee: what arrives is what was pumped and what joined
    arriving = run.co2_mass_flow[0] + run.modifier_mass_flow[0] + added
    assert run.mass_flow[0, -1] == pytest.approx(arriving, rel=1e-3)
    richer = (run.modifier_mass_flow[0] + added) / arriving
    assert run.w_with_makeup[0, -1] == pytest.approx(richer, rel=2e-3)
    assert run.w_modifier[0, -1] == pytest.approx(run.w_modifier[0, 0], rel=1e-9)


def test_makeup_of_another_liquid_adds_flow_without_changing_the_mixture() -> None:
    run = rehearsed(ISOCRATIC + MAKEUP.replace("LIQUID", "2-propanol") + TEE)
    assert run.makeup_mass_flow[0] > 0.0
    np.testing.assert_allclose(run.w_with_makeup, run.w_modifier, rtol=1e-4)
    assert last_tube(run) > 1.2 * last_tube(rehearsed(ISOCRATIC + TEE))


def test_makeup_behind_the_regulator_changes_nothing_before_it() -> None:
    text = MAKEUP.replace("LIQUID", "methanol").replace("before the", "after the")
    run, plain = rehearsed(ISOCRATIC + text + TEE), rehearsed(ISOCRATIC + TEE)
    np.testing.assert_array_equal(run.pressure, plain.pressure)
    assert not run.makeup_mass_flow.any()


def test_makeup_follows_its_own_programme() -> None:
    text = "makeup: {liquid: methanol, tee: before the regulator, programme: ["
    text += "{time: 0 min, flow: 0.1 mL/min}, {time: 5 min, flow: 0.4 mL/min}]}\n"
    run = rehearsed("kind: method\n" + text + TEE)
    at = np.interp(run.time, [0.0, 300.0], [0.1, 0.4])
    assert run.makeup_mass_flow * 6e7 / 791.4 == pytest.approx(at, rel=3e-3)


def test_what_an_active_splitter_takes_is_missing_behind_it() -> None:
    part = "{part: splitter, name: splitter, split_ratio: 30 %, active: true}"
    run = rehearsed(ISOCRATIC + TRAIN.replace("PART", part))
    plain = rehearsed(ISOCRATIC + TEE)
    behind = run.slices_of(run.train.index("last tube"))
    assert run.mass_flow[0, behind] == pytest.approx(0.7 * run.mass_flow[0, 0], rel=1e-6)
    assert run.split_share == pytest.approx(0.3)
    assert last_tube(run) < 0.75 * last_tube(plain)


def test_a_restrictor_takes_what_hagen_and_poiseuille_say() -> None:
    """dP = 128 eta L Q / (pi d^4) (any textbook), down to where the stream boils."""
    part = "{part: splitter, name: splitter, active: false, length: 0.5 m, bore: 25 um}"
    run = rehearsed(ISOCRATIC + TRAIN.replace("PART", part))
    share = float(run.split_share[0])
    assert 0.0 < share < 0.5
    at = run.slices_of(run.train.index("splitter")).start
    w, T = run.w_modifier[0, at], run.temperature[0, at]
    high, low = float(run.pressure[0, at]), float(run.fluid.upper_boundary_pressure(w, T))
    middle = 0.5 * (high + low)
    rho, eta = run.fluid.density_and_viscosity(w, T, middle)
    flow = (high - low) * math.pi * 25e-6**4 / (128.0 * float(eta) * 0.5)
    assert share * run.mass_flow[0, at] == pytest.approx(flow * float(rho), rel=0.05)
    assert run.mass_flow[0, -1] == pytest.approx((1.0 - share) * run.mass_flow[0, at], rel=1e-6)


def test_a_restrictor_takes_its_share_whatever_tubes_follow_it() -> None:
    """A tube so wide that it is one slice of the train divides the stream like a narrow one."""
    part = "{part: splitter, name: splitter, active: false, length: 0.5 m, bore: 25 um}"
    wide = TRAIN.replace("PART", part).replace(
        "length: 3 m, bore: 0.15", "length: 0.3 m, bore: 0.25"
    )
    share = float(rehearsed(ISOCRATIC + wide).split_share[0])
    assert 0.0 < share < float(rehearsed(ISOCRATIC + TRAIN.replace("PART", part)).split_share[0])


def test_runs_with_and_without_side_streams_are_stacked_together() -> None:
    texts = [ISOCRATIC, ISOCRATIC + MAKEUP.replace("LIQUID", "methanol") + TEE]
    together = rehearse_many([planned(text) for text in texts])
    for text, stacked in zip(texts, together, strict=True):
        np.testing.assert_array_equal(stacked.pressure, rehearsed(text).pressure)
    assert not together[0].makeup_mass_flow.any()


def test_a_preheater_has_the_temperature_that_the_method_sets() -> None:
    part = "{part: preheater, name: preheater, length: 1 m, bore: 0.25 mm}"
    train = TRAIN.replace("  - PART\n", "").replace(
        "  - {part: column}", f"  - {part}\n  - {{part: column}}"
    )
    for setting, expected in (("", 313.15), ("preheater_temperature: 60 degC\n", 333.15)):
        run = rehearsed(ISOCRATIC + setting + train)
        inside = run.slices_of(run.train.index("preheater"))
        assert run.temperature[0, inside] == pytest.approx(expected)
        assert run.temperature[0, run.slices_of(run.plan.analytical_column)] == pytest.approx(
            313.15
        )
        assert float(run.drop_over(run.train.index("preheater"))[0]) > 0.0


def test_a_preheater_known_by_its_volume_alone_heats_too() -> None:
    part = "{part: preheater, name: preheater, volume: 20 uL}"
    train = TRAIN.replace("  - PART\n", "").replace(
        "  - {part: column}", f"  - {part}\n  - {{part: column}}"
    )
    run = rehearsed(ISOCRATIC + train)
    assert run.temperature[0, run.slices_of(run.train.index("preheater"))] == pytest.approx(313.15)
    assert float(run.drop_over(run.train.index("preheater"))[0]) == 0.0


def test_the_outlet_pressure_returns_to_the_start_while_settling() -> None:
    """During settling the pumps see the composition then in the column at the starting pressure."""
    text = (
        "kind: method\nprogramme: [{time: 0 min, modifier_share: 5 % v/v, outlet_pressure: 120 bar}, "
        "{time: 4 min, modifier_share: 40 % v/v, outlet_pressure: 200 bar}]\n"
        "run_length: 4 min\nsettling_time: 4 min\n"
    )
    run = rehearsed(text)
    after = run.time > 240.001
    assert run.outlet_pressure[after] == pytest.approx(120e5)
    first = int(np.argmax(after))
    rich = float(run.column_outlet_share[first])
    assert rich > 0.25
    # the rich mobile phase is still there: the drop is near that of the last moment of the run
    drops = run.pump_pressure - run.outlet_pressure
    assert drops[first] > 1.3 * drops[0]
    assert drops[-1] == pytest.approx(drops[0], rel=0.02)
