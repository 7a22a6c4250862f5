"""Rehearsals of whole runs: masses balance, rows are independent, gaps are named."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.fluids.co2 import properties as co2
from methodlint.rehearsal.run.rehearse import rehearse_many
from tests.rehearsal.runs import planned, rehearsed


def test_grid_has_breakpoints_and_twenty_points_in_every_ramp() -> None:
    run = rehearsed("kind: method")
    minutes = run.time / 60.0
    for breakpoint in (0.0, 5.0, 6.0, 6.5, 8.0, 11.0):
        assert np.min(np.abs(minutes - breakpoint)) < 1e-4
    inside = np.sum((minutes > 0.0) & (minutes < 5.0))
    assert inside >= 20
    assert np.all(np.diff(run.time) > 0.0)


def test_an_isocratic_run_needs_few_rows_and_is_steady() -> None:
    run = rehearsed("kind: method\nprogramme: null\nmobile_phase: {modifier_share: 20 % v/v}\n")
    assert run.time.size == 2
    assert np.ptp(run.pump_pressure) < 1.0


def test_stacked_plans_give_what_each_gives_alone() -> None:
    changes = [
        "kind: method",
        "kind: method\noutlet_pressure: 120 bar",
        "kind: method\nmobile_phase: {modifier: {liquid: ethanol}}",
        "kind: method\nprogramme: null\nmobile_phase: {modifier_share: 20 % v/v}\n",
    ]
    plans = [planned(change) for change in changes]
    together = rehearse_many(plans)
    for change, stacked in zip(changes, together, strict=True):
        alone = rehearsed(change)
        np.testing.assert_allclose(stacked.pressure, alone.pressure, rtol=1e-5)
        np.testing.assert_allclose(stacked.co2_mass_flow, alone.co2_mass_flow, rtol=1e-5)


def test_co2_mass_follows_the_density_in_the_pump_head() -> None:
    run = rehearsed("kind: method\nprogramme: null\nmobile_phase: {modifier_share: 20 % v/v}\n")
    density = float(co2.density(281.15, run.pump_pressure[0]))
    flow = 1.5e-6 / 60.0 * 0.8
    assert run.co2_mass_flow[0] == pytest.approx(flow * density, rel=1e-3)
    # 8 degC, 150 to 400 bar: 954 to 1051 kg/m3 at 8-10 degC (Span & Wagner 1996 by CoolProp).
    assert 954 < density < 1051


def test_hold_up_time_is_mass_based() -> None:
    run = rehearsed("kind: method\nprogramme: null\nmobile_phase: {modifier_share: 5 % v/v}\n")
    by_set_flow = run.hold_up_volume / (1.5e-6 / 60.0)
    shorter = 1.0 - float(run.hold_up_time[0]) / by_set_flow
    # The stream expands from the cold pump head: t0 is 10-17 % shorter (mass balance).
    assert 0.05 < shorter < 0.20


def test_a_missing_figure_is_named_and_nothing_is_computed() -> None:
    plan = planned("kind: column\nparticle_size: null")
    assert [item.where for item in plan.missing] == ["column.particle_size"]
    run = rehearse_many([plan])[0]
    assert not run.done
    assert run.pressure.size == 0


def test_a_mobile_phase_without_a_model_is_named() -> None:
    plan = planned("kind: method\nmobile_phase: {modifier: {liquid: toluene}}")
    assert plan.no_model
    assert any("no model" in item.reason for item in plan.missing)


def test_a_temperature_outside_the_model_is_named_not_extrapolated() -> None:
    run = rehearse_many([planned("kind: method\noven_temperature: 400 degC")])[0]
    assert not run.done
    assert any("method.oven_temperature" == item.where for item in run.missing)


def test_pure_co2_is_rehearsed_without_a_modifier() -> None:
    run = rehearsed(
        "kind: method\nprogramme: null\nmobile_phase: {modifier: null, modifier_share: 0 % v/v}\n"
    )
    assert np.all(run.w_modifier == 0.0)
    assert run.modifier_per_cycle == 0.0
