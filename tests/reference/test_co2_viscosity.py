"""Viscosity of CO2 against the check values of the correlations' papers."""

import pytest

from methodlint.fluids.co2 import properties as co2

# A. Laesecke, C. D. Muzny, J. Phys. Chem. Ref. Data 46, 013107 (2017), check values as carried by
# an open test file.  (temperature [K], density [kg/m3], viscosity [mPa s])
LAESECKE_MUZNY_2017 = [
    (220.0, 3.0, 0.011104),
    (225.0, 1150.0, 0.22218),
    (700.0, 100.0, 0.033112),
    (700.0, 1200.0, 0.2298),
]

# A. Fenghour, W. A. Wakeham, V. Vesovic, J. Phys. Chem. Ref. Data 27, 31 (1998), check values from
# memory; an older correlation, within 2.5 % of the one in use.  (K, kg/m3, µPa s)
FENGHOUR_1998 = [
    (220.0, 2.44, 11.06),
    (300.0, 1.773, 15.02),
    (304.0, 254.32, 20.99),
]


@pytest.mark.parametrize(("kelvin", "density", "millipascal_second"), LAESECKE_MUZNY_2017)
def test_check_values_of_the_correlation(kelvin, density, millipascal_second):
    pressure = co2.pressure_at_density(kelvin, density)
    assert co2.density(kelvin, pressure) == pytest.approx(density, rel=1e-6)
    assert co2.viscosity(kelvin, pressure) == pytest.approx(millipascal_second * 1e-3, rel=1e-4)


@pytest.mark.parametrize(("kelvin", "density", "micropascal_second"), FENGHOUR_1998)
def test_older_correlation_from_memory(kelvin, density, micropascal_second):
    pressure = co2.pressure_at_density(kelvin, density)
    assert co2.viscosity(kelvin, pressure) == pytest.approx(micropascal_second * 1e-6, rel=0.025)
