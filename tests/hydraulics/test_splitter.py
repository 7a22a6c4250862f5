"""Division of a stream between branches."""

import numpy as np
import pytest

from methodlint.hydraulics.splitter import Branch, split_flow

from .constant_fluid import ConstantFluid
from .trains import one_tube

FLUID = ConstantFluid()


def branch(length, bore, outlet):
    return Branch(one_tube(length, bore).layout(), [outlet], 308.15)


def test_equal_laminar_branches_share_by_the_fourth_power_of_bore():
    wide, narrow = branch(1.0, 200e-6, 100e5), branch(1.0, 100e-6, 100e5)
    found = split_flow(FLUID, wide, narrow, [5e-6], 0.0)
    assert found.settled.all()
    assert found.side_fraction[0] == pytest.approx(1.0 / 17.0, rel=5e-3)


def test_restrictor_against_a_regulator_takes_what_its_drop_allows():
    main, side = branch(0.1, 250e-6, 150e5), branch(1.0, 25e-6, 80e5)
    found = split_flow(FLUID, main, side, [3e-5], 0.0)
    drop = found.pressure[0] - 80e5
    wanted = drop * np.pi * 25e-6**4 * FLUID.rho / (128.0 * FLUID.eta)
    assert found.side_fraction[0] * 3e-5 == pytest.approx(wanted, rel=1e-3)
    assert found.main.pump_pressure == pytest.approx(found.side.pump_pressure, rel=2e-4)
    assert not found.main_dry.any()


def test_side_branch_that_swallows_everything_is_reported():
    found = split_flow(FLUID, branch(0.1, 250e-6, 150e5), branch(0.1, 250e-6, 80e5), [1e-5], 0.0)
    assert found.main_dry[0]
    assert found.side_fraction[0] == 1.0


def test_side_branch_above_the_main_pressure_takes_nothing():
    found = split_flow(FLUID, branch(0.1, 250e-6, 100e5), branch(1.0, 50e-6, 150e5), [1e-5], 0.0)
    assert found.side_fraction[0] == 0.0
    assert found.pressure[0] == pytest.approx(found.main.pump_pressure[0])


def test_where_friction_jumps_between_laws_the_share_is_still_known():
    """At Re 2100 the drop jumps (laminar to transition): no share makes both ends equal."""
    for length in np.linspace(0.02, 0.2, 40):
        main, side = branch(0.1, 250e-6, 150e5), branch(length, 25e-6, 80e5)
        found = split_flow(FLUID, main, side, [3e-5], 0.0)
        assert found.settled.all(), length
