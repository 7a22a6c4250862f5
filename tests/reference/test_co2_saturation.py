"""Fixed points and saturation line of CO2 against Span & Wagner (1996)."""

import numpy as np
import pytest

from methodlint.fluids.co2 import properties as co2

# R. Span, W. Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996), saturation table; the digits are
# from memory.  (temperature [K], value)
PRESSURES_MPA = [(280.0, 4.1607), (300.0, 6.7131)]
LIQUID_DENSITIES = [(280.0, 883.58), (290.0, 804.67)]
VAPOUR_DENSITIES = [(270.0, 88.37), (280.0, 121.74), (290.0, 171.96), (300.0, 268.58)]


def test_critical_point_is_that_of_the_paper():
    # Span & Wagner 1996; texts that print 7.377, 7.382 or 7.39 MPa are rounded or wrong
    assert co2.CRITICAL_TEMPERATURE == 304.1282
    assert co2.CRITICAL_PRESSURE == 7.3773e6
    assert co2.CRITICAL_DENSITY == 467.6
    assert co2.TRIPLE_TEMPERATURE == 216.592
    assert co2.TRIPLE_PRESSURE == 0.51795e6
    assert co2.MOLAR_MASS == 0.0440098


def test_line_ends_in_the_critical_point():
    assert co2.saturation_pressure(304.1282) == pytest.approx(7.3773e6, abs=10.0)
    assert co2.saturated_liquid_density(304.1282) == pytest.approx(467.6, abs=0.1)
    assert co2.saturated_vapour_density(304.1282) == pytest.approx(467.6, abs=0.1)


def test_line_starts_in_the_triple_point():
    # Span & Wagner 1996: 0.51795 MPa (paper, from memory), 0.51796 MPa (their equation's data file)
    assert co2.saturation_pressure(216.592) == pytest.approx(0.51795e6, rel=5e-5)
    assert co2.saturation_temperature(0.51795e6) == pytest.approx(216.592, abs=1e-3)


@pytest.mark.parametrize(("kelvin", "megapascal"), PRESSURES_MPA)
def test_saturation_pressure(kelvin, megapascal):
    assert co2.saturation_pressure(kelvin) == pytest.approx(megapascal * 1e6, abs=60.0)
    assert co2.saturation_temperature(megapascal * 1e6) == pytest.approx(kelvin, abs=1e-3)


@pytest.mark.parametrize(("kelvin", "density"), LIQUID_DENSITIES)
def test_saturated_liquid_density(kelvin, density):
    assert co2.saturated_liquid_density(kelvin) == pytest.approx(density, abs=0.006)


@pytest.mark.parametrize(("kelvin", "density"), VAPOUR_DENSITIES)
def test_saturated_vapour_density(kelvin, density):
    assert co2.saturated_vapour_density(kelvin) == pytest.approx(density, abs=0.006)


def test_surfaces_meet_the_line_on_both_sides():
    # the line is generated and interpolated apart from the surfaces
    kelvin = np.array([240.0, 265.0, 285.0, 300.0, 303.5])
    pressure = co2.saturation_pressure(kelvin)
    assert co2.density(kelvin, pressure * (1 + 1e-9)) == pytest.approx(
        co2.saturated_liquid_density(kelvin), rel=2e-4
    )
    assert co2.density(kelvin, pressure * (1 - 1e-9)) == pytest.approx(
        co2.saturated_vapour_density(kelvin), rel=2e-4
    )


@pytest.mark.parametrize("kelvin", [216.5, 304.2, np.nan])
def test_no_saturation_beyond_the_triple_and_the_critical_point(kelvin):
    with pytest.raises(co2.OutOfRange) as caught:
        co2.saturation_pressure(kelvin)
    assert caught.value.quantity == "temperature"
    assert (caught.value.lower, caught.value.upper) == (216.592, 304.1282)


@pytest.mark.parametrize("pascal", [0.5e6, 7.4e6])
def test_no_boiling_below_the_triple_and_above_the_critical_pressure(pascal):
    with pytest.raises(co2.OutOfRange) as caught:
        co2.saturation_temperature(pascal)
    assert caught.value.quantity == "pressure"


def test_boiling_temperature_inverts_the_saturation_pressure():
    kelvin = np.concatenate([np.linspace(216.592, 304.0, 500), 304.1282 - np.logspace(-5, -1, 50)])
    back = co2.saturation_temperature(co2.saturation_pressure(kelvin))
    assert back == pytest.approx(kelvin, abs=1e-6)
