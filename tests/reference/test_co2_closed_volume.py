"""Pressure of CO2 in closed volumes, against the reference equation of state."""

import numpy as np
import pytest
from CoolProp import CoolProp

from methodlint.fluids.co2 import properties as co2

# No published table was at hand: pressures [bar] computed with the equation of Span & Wagner (1996)
# as CoolProp 8.0.0 has it, rounded; the tests recompute them through its density inputs, which the
# surfaces do not use.
CELSIUS = np.array([25.0, 30.0, 35.0, 40.0, 45.0, 50.0])
CYLINDER_FILLS = [
    (750.0, [72.0, 92.0, 112.0, 133.0, 154.0, 175.0]),
    (667.0, [64.0, 76.0, 91.0, 106.0, 122.0, 138.0]),
]


def _by_density(kelvin, density):
    return CoolProp.PropsSI("P", "T", kelvin, "D", density, "CO2")


@pytest.mark.parametrize(("density", "bar"), CYLINDER_FILLS)
def test_warmed_cylinder(density, bar):
    pressure = co2.pressure_at_density(CELSIUS + 273.15, density)
    assert pressure / 1e5 == pytest.approx(np.array(bar), abs=0.5)
    oracle = [_by_density(kelvin, density) for kelvin in CELSIUS + 273.15]
    assert pressure == pytest.approx(np.array(oracle), rel=1e-5)


def test_liquid_trapped_between_valves():
    full_at_10 = co2.density(283.15, 60e5)
    pressure = co2.pressure_at_density(np.array([288.15, 293.15, 298.15]), full_at_10)
    assert pressure / 1e5 == pytest.approx(np.array([92.0, 124.0, 156.0]), abs=0.5)
    warmed = co2.pressure_at_density(313.15, co2.density(298.15, 150e5))
    assert warmed / 1e5 == pytest.approx(246.0, abs=0.5)


def test_half_full_cylinder_stays_at_the_saturation_pressure():
    assert co2.pressure_at_density(293.15, 500.0) == co2.saturation_pressure(293.15)


def test_random_states_agree_with_the_equation():
    rng = np.random.default_rng(20)
    kelvin = rng.uniform(263.15, 373.15, 300)
    density = rng.uniform(2.0, 1000.0, 300)
    pressure = co2.pressure_at_density(kelvin, density)
    oracle = np.array([_by_density(t, d) for t, d in zip(kelvin, density, strict=True)])
    assert pressure == pytest.approx(oracle, rel=1e-4)


def test_pressures_above_the_surfaces_come_from_the_equation():
    assert co2.pressure_at_density(320.0, 1150.0) == pytest.approx(_by_density(320.0, 1150.0))
    assert co2.pressure_at_density(320.0, 1150.0) > 700e5


def test_frozen_or_impossible_fills_are_refused():
    with pytest.raises(co2.OutOfRange):
        co2.pressure_at_density(220.0, 1300.0)
    with pytest.raises(co2.OutOfRange):
        co2.pressure_at_density(200.0, 500.0)
    with pytest.raises(co2.OutOfRange):
        co2.pressure_at_density(300.0, np.nan)
