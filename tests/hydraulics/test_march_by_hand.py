"""The march against pressures that follow by hand."""

import math

import numpy as np
import pytest

from methodlint.hydraulics.columns import ergun_gradient
from methodlint.hydraulics.layout import stack_layouts
from methodlint.hydraulics.march import march
from methodlint.hydraulics.temperature import temperature_along_column
from methodlint.hydraulics.train import Segment, Train
from methodlint.hydraulics.tubes import pressure_gradient

from .constant_fluid import ConstantFluid, ProportionalFluid
from .trains import COLUMN, bench_a, one_tube

FLUID = ConstantFluid()


def test_constant_properties_add_up_segment_by_segment():
    mass_flow = 2.0e-3 / 60.0
    train = bench_a()
    found = march(FLUID, train.layout(), [130e5], [mass_flow], 0.15, 308.15)
    wide, narrow = (
        0.3 * pressure_gradient(mass_flow, bore, FLUID.rho, FLUID.eta).gradient
        for bore in (0.25e-3, 0.15e-3)
    )
    velocity = mass_flow / FLUID.rho / COLUMN.cross_section
    bed = 0.1 * ergun_gradient(velocity, 3e-6, 1000.0, 0.38, FLUID.rho, FLUID.eta)
    wanted = [0.0, wide, 0.0, narrow, bed, narrow, 0.0, 0.0]
    assert found.segment_drops()[0] == pytest.approx(wanted, rel=1e-9, abs=1e-3)
    assert found.pump_pressure[0] == pytest.approx(130e5 + sum(wanted), rel=1e-9)
    assert found.settled.all()
    assert not found.beyond_model.any()


def test_hold_up_time_is_mass_in_the_column_over_mass_flow():
    mass_flow = 2.0e-3 / 60.0
    train = bench_a()
    found = march(FLUID, train.layout(), [130e5], [mass_flow], 0.15, 308.15)
    wanted = FLUID.rho * COLUMN.volume / mass_flow
    assert found.segment_times()[0, 4] == pytest.approx(wanted, rel=1e-9)
    assert found.mean_density(4)[0] == pytest.approx(FLUID.rho, rel=1e-12)


def test_density_proportional_to_pressure_gives_falling_squares():
    """rho = rho0 P/P0 in viscous flow: P_in^2 = P_out^2 + 2 P0 L (dP/dx at P0)."""
    fluid = ProportionalFluid()
    bed = Segment("bed", "column", 0.25, 4.6e-3, 5e-6, external_porosity=0.9999)
    mass_flow, outlet = 20.0e-3 / 60.0, 50e5
    found = march(fluid, Train((bed,)).layout(), [outlet], [mass_flow], 0.0, 308.15)
    velocity = mass_flow / fluid.rho / bed.cross_section
    gradient = 1000.0 * fluid.eta * velocity / 5e-6**2
    wanted = math.sqrt(outlet**2 + 2.0 * fluid.reference * gradient * 0.25)
    assert wanted > 2.0 * outlet  # a case in which compressibility decides
    assert found.pump_pressure[0] == pytest.approx(wanted, rel=2e-3)
    assert np.all(np.diff(found.pressure[0]) < 0.0)


def test_mass_flow_is_the_same_in_every_slice_and_volume_flow_is_not():
    fluid = ProportionalFluid()
    found = march(fluid, bench_a().layout(), [100e5], [3e-5], 0.1, 308.15)
    layout = found.layout
    filled = layout.volume > 0.0
    through = found.density[0, filled] * layout.volume[filled] / found.residence_time[0, filled]
    assert through == pytest.approx(3e-5, rel=1e-12)
    assert found.density[0, 0] > 1.2 * found.density[0, -1]


def test_rows_do_not_influence_each_other():
    fluid = ProportionalFluid()
    layouts = [bench_a().layout(), one_tube(2.6, 0.15e-3).layout(), bench_a().layout(refine=2)]
    stacked = stack_layouts(layouts, [2, 1, 1])
    outlet, flow = np.array([130e5, 180e5, 150e5, 130e5]), np.array([2e-5, 3e-5, 4e-5, 2e-5])
    together = march(fluid, stacked, outlet, flow, 0.1, 308.15)
    for row, layout in enumerate([layouts[0], *layouts]):
        alone = march(fluid, layout, outlet[row : row + 1], flow[row : row + 1], 0.1, 308.15)
        faces = layout.slices + 1
        assert together.pressure[row, :faces] == pytest.approx(alone.pressure[0], rel=1e-4)
        assert (together.pressure[row, faces:] == outlet[row]).all()


def test_transition_reports_the_lower_branch_as_alternative():
    layout = one_tube(1.0, 0.15e-3).layout()
    flow = 3000.0 * math.pi * 0.15e-3 * FLUID.eta / 4.0
    found = march(FLUID, layout, [130e5], [flow], 0.0, 308.15)
    gradient = pressure_gradient(flow, 0.15e-3, FLUID.rho, FLUID.eta)
    assert found.transition.all()
    assert found.reynolds == pytest.approx(3000.0, rel=1e-12)
    assert found.pressure[0, 0] - 130e5 == pytest.approx(gradient.gradient, rel=1e-9)
    assert found.pressure_alternative[0, 0] - 130e5 == pytest.approx(gradient.alternative)


def test_a_tube_at_the_edge_of_the_transition_comes_to_rest():
    """Viscosity rising with pressure pulls Re below 2100 as soon as the turbulent loss counts."""

    class Stiffening(ConstantFluid):
        def viscosity(self, w_mod, T, P, /):
            return super().viscosity(w_mod, T, P) * np.asarray(P) / 130e5

    fluid = Stiffening()
    flow = 2110.0 * math.pi * 0.15e-3 * fluid.eta / 4.0
    found = march(fluid, one_tube(1.0, 0.15e-3).layout(), [130e5], [flow], 0.0, 308.15)
    assert found.settled.all()


def test_pressures_beyond_the_model_are_reported_not_hidden():
    narrow = Segment("column", "column", 0.25, 2.1e-3, 1.7e-6)
    found = march(FLUID, Train((narrow,)).layout(), [130e5], [5e-5], 0.9, 308.15)
    assert found.pump_pressure[0] > 700e5
    assert found.beyond_model[0, 0]
    assert not found.beyond_model[0, -1]


def test_no_flow_stands_at_the_outlet_pressure():
    found = march(FLUID, bench_a().layout(), [130e5], [0.0], 0.0, 308.15)
    assert (found.pressure == 130e5).all()
    assert np.isinf(found.residence_time[0, 0])


def test_makeup_joining_on_the_way_counts_from_there_on():
    layout = one_tube(1.0, 0.5e-3).layout(per_tube=2)
    found = march(FLUID, layout, [130e5], [[1e-5, 2e-5]], 0.0, 308.15)
    losses = found.pressure[0, :-1] - found.pressure[0, 1:]
    assert losses[1] == pytest.approx(2.0 * losses[0], rel=1e-4)  # laminar


def test_adiabatic_bound_of_a_constant_slope():
    train = bench_a()
    found = march(FLUID, train.layout(), [130e5], [3e-5], 0.1, 308.15)
    profile = temperature_along_column(FLUID, found, 0.1, 308.15)
    drop = found.segment_drops()[0, 4]
    assert profile.change[0] == pytest.approx(-FLUID.slope * drop, rel=1e-9)
    assert profile.temperature[0, 0] == 308.15
    assert profile.outlet[0] == profile.temperature[0, -1]
    assert profile.settled.all()
