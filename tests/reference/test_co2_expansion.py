"""Joule-Thomson effect, sublimation and isenthalpic ends of CO2 against published values."""

import numpy as np
import pytest

from methodlint.fluids.co2 import properties as co2

CALORIE = 4.184  # thermochemical calorie [J], exact


def test_normal_sublimation_temperature():
    # 194.686 K: data file of the Span & Wagner (1996) equation, secondary copy
    assert co2.sublimation_temperature(101325.0) == pytest.approx(194.686, abs=0.002)
    assert co2.sublimation_pressure(194.686) == pytest.approx(101325.0, rel=2e-4)


def test_sublimation_pressure_of_giauque_and_egan():
    # W. F. Giauque, C. J. Egan, J. Chem. Phys. 5, 45 (1937), abstract: vapour pressure of the solid,
    # 154-196 K, log10(P / international cm Hg).  Measured; independent of the equation in use.
    kelvin = np.linspace(160.0, 196.0, 19)
    logarithm = -1354.210 / kelvin + 8.69903 + 0.0015880 * kelvin - 4.5107e-6 * kelvin**2
    assert co2.sublimation_pressure(kelvin) == pytest.approx(10.0**logarithm * 1333.22, rel=0.01)


def test_sublimation_meets_the_triple_point():
    # Span & Wagner 1996, from memory; independent: 216.52 K, Di Nicola et al. 2010 (open data)
    assert co2.sublimation_pressure(216.592) == pytest.approx(0.51795e6, rel=1e-6)
    assert co2.sublimation_temperature(0.51795e6) == pytest.approx(216.592, abs=1e-4)
    assert co2.sublimation_temperature(0.51795e6) == pytest.approx(216.52, abs=0.1)


def test_heat_of_sublimation_of_giauque_and_egan():
    # the same abstract: 6030 cal/mol at 194.67 K, by calorimeter
    kelvin = 194.67
    gas = co2.sublimation_pressure(kelvin) * co2.MOLAR_MASS / (8.314462618 * kelvin)
    # second virial coefficient of the saturated vapour about -305 cm3/mol: from memory
    density = gas / (1.0 - 305e-6 * gas / co2.MOLAR_MASS)
    molar = co2.sublimation_enthalpy(kelvin, density) * co2.MOLAR_MASS
    assert molar == pytest.approx(6030.0 * CALORIE, rel=0.005)


def test_joule_thomson_coefficient_at_ambient():
    # textbook value 1.1 K/bar at 25 °C and 1 bar (handbook of chemical engineering), from memory
    assert co2.isenthalpic_slope(298.15, 1e5) * 1e5 == pytest.approx(1.1, abs=0.05)


@pytest.mark.parametrize("start", [(333.15, 110e5), (313.15, 120e5), (313.15, 300e5)])
def test_dry_ice_from_the_calorimetric_heat_of_sublimation(start):
    # energy balance written out: the solid share makes up for the enthalpy the vapour has too much,
    # with the calorimeter's heat of sublimation (Giauque & Egan 1937, abstract)
    end = co2.isenthalpic_end(*start, 101325.0)
    assert end.solid
    assert end.temperature == pytest.approx(194.686, abs=0.002)
    heat = 6030.0 * CALORIE / co2.MOLAR_MASS
    # vapour at 194.69 K from gas at 233.15 K by its mean heat capacity, 0.79 kJ/(kg K): an estimate
    # between 0.77 and 0.80
    vapour = co2.enthalpy(233.15, 101325.0) - 790.0 * (233.15 - 194.686)
    share = 1.0 - (vapour - co2.enthalpy(*start)) / heat
    assert end.vapour_fraction == pytest.approx(share, abs=0.005)
