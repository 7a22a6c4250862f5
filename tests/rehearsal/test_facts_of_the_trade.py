"""Facts that anybody in the trade would look for first come out of a whole rehearsal."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI  # type: ignore[import-untyped]

from methodlint.fluids.miscibility.blends import miscible
from methodlint.hydraulics.train import Train
from methodlint.rehearsal.run.rehearsal import Rehearsal
from tests.rehearsal.runs import rehearsed

NEAT = "kind: method\nprogramme: []\nmobile_phase: {modifier: null, modifier_share: 0 % v/v}\n"
ISOCRATIC = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: SHARE % v/v}\n"


def column_means(run: Rehearsal) -> tuple[float, float]:
    bed = run.slices_of(run.plan.analytical_column)
    return float(run.density[0, bed].mean()), float(run.viscosity[0, bed].mean())


def test_density_falls_and_viscosity_rises_with_methanol_at_40_c_and_200_bar() -> None:
    """Berger, Chromatography Today, 2019: from about 20 % methanol on."""
    text = ISOCRATIC + "oven_temperature: 40 degC\noutlet_pressure: 200 bar\nflow: 0.5 mL/min\n"
    runs = [rehearsed(text.replace("SHARE", str(share))) for share in (25, 40, 60, 80, 95)]
    density, viscosity = np.array([column_means(run) for run in runs]).T
    assert np.all(np.diff(density) < 0.0)
    assert np.all(np.diff(viscosity) > 0.0)


def test_neat_co2_at_40_c_neither_warms_nor_cools_near_436_bar_and_cools_at_150() -> None:
    """436 bar: Span & Wagner 1996 by CoolProp (450: De Pauw 2014, J. Chromatogr. A 1365, 212)."""
    text = NEAT + "oven_temperature: 40 degC\noutlet_pressure: OUTLET bar\nflow: 0.4 mL/min\n"
    found = {}
    for bar in (150, 426, 460):
        run = rehearsed(text.replace("OUTLET", str(bar)))
        drop = float(run.column_inlet_pressure[0] - run.column_outlet_pressure[0]) / 1e5
        assert 10.0 < drop < 40.0
        found[bar] = float(run.adiabatic_column.cooling[0]) / drop  # K per bar
    # the bed at 426 bar spans the inversion; by the equation 0.0037 K/bar remain at 400 bar
    assert abs(found[426]) < 1e-3
    assert found[460] < -1e-3
    assert found[150] > 0.05
    run = rehearsed(text.replace("OUTLET", "150"))
    inlet, outlet = float(run.column_inlet_pressure[0]), float(run.column_outlet_pressure[0])
    end = PropsSI("T", "H", PropsSI("H", "T", 313.15, "P", inlet, "CO2"), "P", outlet, "CO2")
    assert run.adiabatic_column.cooling[0] == pytest.approx(313.15 - end, abs=0.05)


def test_methanol_and_hexane_are_miscible_at_40_c_and_not_at_20_c() -> None:
    """Upper critical solution temperature 307.5 K (Hölscher et al. 1986; from memory)."""
    assert miscible("methanol", "hexane", 313.15).verdict == "miscible"
    assert miscible("methanol", "hexane", 293.15).verdict == "immiscible"


def test_half_the_step_changes_no_reported_pressure_by_a_fifth_of_a_per_cent(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A whole gradient, rehearsed again in slices of half the size."""
    run = rehearsed("kind: method")
    usual = Train.layout
    monkeypatch.setattr(Train, "layout", lambda train: usual(train, refine=2))
    halved, layout = rehearsed("kind: method"), usual(run.train, refine=2)
    assert halved.segment.size > 1.8 * run.segment.size
    for number in range(len(run.train.segments)):
        fine = int(np.flatnonzero(layout.segment == number)[0])
        again = np.interp(run.time, halved.time, halved.pressure[:, fine])
        reported = run.inlet_pressure_of(number)
        assert np.max(np.abs(again / reported - 1.0)) < 2e-3


def test_what_is_pumped_arrives_at_the_regulator() -> None:
    """Mass balance of a whole cycle: mass through the last slice is mass from the pumps."""
    run = rehearsed("kind: method")
    pumped = run.integral(run.co2_mass_flow + run.modifier_mass_flow)
    arrived = run.integral(run.mass_flow[:, -1])
    # the composition of the end is that of the beginning, so nothing stays in the train
    assert arrived == pytest.approx(pumped, rel=2e-3)
    # shares become mass with the density in the pump head of the moment: good to some per cent
    liquid = run.integral(run.mass_flow[:, -1] * run.w_modifier[:, -1])
    assert liquid == pytest.approx(run.integral(run.modifier_mass_flow), rel=2e-2)
