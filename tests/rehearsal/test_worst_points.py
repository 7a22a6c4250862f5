"""Worst points per component, the adiabatic bound, heat: what a rehearsal says of a whole run."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI  # type: ignore[import-untyped]

from methodlint.rehearsal.run.rehearsal import Rehearsal
from tests.rehearsal.runs import rehearsed

NEAT = "kind: method\nprogramme: []\nmobile_phase: {modifier: null, modifier_share: 0 % v/v}\n"


@pytest.fixture(scope="module")
def run() -> Rehearsal:
    return rehearsed("kind: method")


def test_every_component_is_listed_in_flow_order_with_falling_pressures(run: Rehearsal) -> None:
    rows = run.worst_points
    assert [row.name for row in rows] == [segment.name for segment in run.train.segments]
    highest = [row.pressure.value for row in rows]
    assert highest == sorted(highest, reverse=True)
    assert rows[0].pressure.value == pytest.approx(float(run.pump_pressure.max()), rel=1e-3)


def test_the_column_is_worst_after_the_programmes_last_rise(run: Rehearsal) -> None:
    column = run.worst_points.of(run.train.segments[run.plan.analytical_column].name)
    assert column.kind == "column"
    assert column.pressure.time > 5.0 * 60.0
    assert column.drop.value == pytest.approx(
        float(run.drop_over(run.plan.analytical_column).max())
    )
    # The rich end is in the column then: see tests/hydraulics/test_drop_band.py.
    assert 0.28 < column.drop.band / column.drop.value < 0.41
    assert column.drop.below is not None
    assert 0.16 < column.drop.below / column.drop.value < 0.33
    assert 1e5 < column.margin.band < 15e5
    with pytest.raises(KeyError):
        run.worst_points.of("no such part")


def test_the_regulator_has_no_drop_and_the_least_margin_of_all(run: Rehearsal) -> None:
    last = run.worst_points[-1]
    assert last.kind == "regulator"
    assert last.drop.value == 0.0
    assert last.margin.value == pytest.approx(min(row.margin.value for row in run.worst_points))


def test_the_table_prints_one_line_for_each(run: Rehearsal) -> None:
    lines = str(run.worst_points).splitlines()
    assert len(lines) == len(run.worst_points) + 1
    assert lines[0].startswith("component")


@pytest.mark.parametrize("outlet", [110, 150])
def test_neat_co2_ends_where_the_reference_equation_keeps_its_enthalpy(outlet: int) -> None:
    """Span & Wagner 1996 through CoolProp: enthalpy at the inlet is enthalpy at the outlet."""
    run = rehearsed(NEAT + f"outlet_pressure: {outlet} bar\nflow: 4 mL/min\n")
    column = run.adiabatic_column
    inlet = PropsSI("H", "T", 313.15, "P", float(run.column_inlet_pressure[0]), "CO2")
    outlet_pressure = float(run.column_outlet_pressure[0])
    wanted = PropsSI("T", "H", inlet, "P", outlet_pressure, "CO2")
    assert column.outlet_temperature[0] == pytest.approx(wanted, abs=0.05)
    assert column.cooling[0] == pytest.approx(313.15 - wanted, abs=0.05)
    assert column.cooling[0] > 1.0
    density = PropsSI("D", "T", wanted, "P", outlet_pressure, "CO2")
    assert column.outlet_density[0] == pytest.approx(density, rel=2e-3)
    warm = PropsSI("D", "T", 313.15, "P", outlet_pressure, "CO2")
    assert run.column_outlet_density[0] == pytest.approx(warm, rel=2e-3)
    assert column.outlet_density[0] > run.column_outlet_density[0]


def test_the_bound_is_reported_at_every_time(run: Rehearsal) -> None:
    column = run.adiabatic_column
    assert column.temperature.shape[0] == run.time.size
    assert column.temperature[:, 0] == pytest.approx(313.15)
    assert np.all(np.isfinite(column.outlet_density))
    # methanol-rich mobile phase expands less: it cools less than the lean one
    drop = run.column_inlet_pressure - run.column_outlet_pressure
    rich, lean = int(np.argmax(run.column_outlet_share)), 0
    assert column.cooling[rich] / drop[rich] < column.cooling[lean] / drop[lean]


def test_heat_of_the_regulator_and_of_the_preheater_are_part_of_the_run(run: Rehearsal) -> None:
    assert run.heater_load is not None
    assert 0.0 < run.heater_load.watts < 20.0
    neat = rehearsed(NEAT)
    pressure = float(neat.column_inlet_pressure[0])
    rise = PropsSI("H", "T", 313.15, "P", pressure, "CO2") - PropsSI(
        "H", "T", 293.15, "P", pressure, "CO2"
    )
    expected = float(neat.co2_mass_flow[0]) * rise
    assert neat.preheater_watts[0] == pytest.approx(expected, rel=0.02)
