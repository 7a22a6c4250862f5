"""Cold and heat at the regulator, and closed volumes, against handbook and library figures."""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from methodlint.hydraulics.closed_volume import warmed_carbon_dioxide, warmed_liquid
from methodlint.hydraulics.expansion import (
    ATMOSPHERE,
    ExpandedLiquid,
    RegulatorHeat,
    regulator_heats,
)

GRAM_MIN = 1e-3 / 60.0
# heat capacity of methanol 2.53 J/(g K) (handbooks; from memory)
METHANOL = ExpandedLiquid(0.44 * GRAM_MIN, 2530.0)


def regulator_heat(temperature, pressure, flow, wanted, liquids=(), **given) -> RegulatorHeat:
    """One expansion alone."""
    one = [np.array([value]) for value in (temperature, pressure, flow, wanted)]
    return regulator_heats(*one, [liquids], **given)[0]


@pytest.mark.parametrize(
    ("bar", "grams", "watts", "per_mass"), [(150, 1.6, 5.8, 216e3), (120, 2.9, 9.9, 205e3)]
)
def test_heat_back_to_gas_at_twenty_degrees(bar, grams, watts, per_mass):
    # worked with CoolProp 8.0.0 by an independent calculation
    found = regulator_heat(313.15, bar * 1e5, grams * GRAM_MIN, 293.15)
    assert found.total == found.carbon_dioxide == pytest.approx(watts, abs=0.06)
    assert found.carbon_dioxide / (grams * GRAM_MIN) == pytest.approx(per_mass, rel=0.005)
    library = PropsSI("H", "T", 293.15, "P", ATMOSPHERE, "CO2") - PropsSI(
        "H", "T", 313.15, "P", bar * 1e5, "CO2"
    )
    assert found.carbon_dioxide / (grams * GRAM_MIN) == pytest.approx(library, rel=0.002)


def test_liquid_that_arrives_warm_brings_its_heat_along():
    found = regulator_heat(313.15, 150e5, 1.6 * GRAM_MIN, 293.15, (METHANOL,))
    assert found.liquid == pytest.approx(-0.44 * GRAM_MIN * 2530.0 * 20.0, rel=1e-9)
    assert found.total == pytest.approx(5.76 - 0.37, abs=0.05)


def test_expansions_solved_together_are_those_solved_alone():
    T, P = np.array([313.15, 333.15]), np.array([150e5, 200e5])
    flow, wanted = np.array([1.6, 2.9]) * GRAM_MIN, np.array([293.15, 298.15])
    together = regulator_heats(T, P, flow, wanted, [(METHANOL,), ()])
    assert together == [
        regulator_heat(T[0], P[0], flow[0], wanted[0], (METHANOL,)),
        regulator_heat(T[1], P[1], flow[1], wanted[1]),
    ]


@pytest.mark.parametrize(("end_bar", "celsius"), [(10, -40), (6, -53)])
def test_expansion_ends_on_the_boiling_line_above_the_triple_point(end_bar, celsius):
    # worked with CoolProp 8.0.0 by an independent calculation
    found = regulator_heat(313.15, 150e5, 1.6 * GRAM_MIN, 293.15, end_pressure=end_bar * 1e5)
    assert found.end_temperature - 273.15 == pytest.approx(celsius, abs=0.7)
    assert not found.solid


def test_expansion_to_the_atmosphere_makes_solid_carbon_dioxide():
    # sublimation at one atmosphere: 194.7 K (handbooks)
    found = regulator_heat(313.15, 150e5, 1.6 * GRAM_MIN, 293.15)
    assert found.solid
    assert found.end_temperature == pytest.approx(194.7, abs=0.1)


def test_liquid_modifier_brings_warmth_but_little_of_it_leaves_solid_in_place():
    some = regulator_heat(313.15, 150e5, 1.6 * GRAM_MIN, 293.15, (METHANOL,))
    assert some.mixed_end_temperature == pytest.approx(some.end_temperature, abs=0.01)


def test_much_liquid_lifts_the_end_above_sublimation_where_heats_balance():
    grams = 3.0
    much = ExpandedLiquid(grams * GRAM_MIN, 2530.0)
    found = regulator_heat(313.15, 150e5, 1.0 * GRAM_MIN, 293.15, (much,))
    end = found.mixed_end_temperature
    assert end > found.end_temperature + 10.0
    gained = PropsSI("H", "T", end, "P", ATMOSPHERE, "CO2") - PropsSI(
        "H", "T", 313.15, "P", 150e5, "CO2"
    )
    assert gained == pytest.approx(grams * 2530.0 * (313.15 - end), rel=0.01)


def test_a_hot_thin_stream_needs_no_heat():
    found = regulator_heat(353.15, 10e5, 1.6 * GRAM_MIN, 293.15)
    assert found.total == 0.0
    assert not found.solid


def test_closed_carbon_dioxide_warmed_by_fifteen_degrees():
    # 246 bar: worked with CoolProp 8.0.0 by an independent calculation
    found = warmed_carbon_dioxide(298.15, 150e5, 313.15)
    assert found.pressure / 1e5 == pytest.approx(246.0, abs=1.0)
    density = PropsSI("D", "T", 298.15, "P", 150e5, "CO2")
    assert found.pressure == pytest.approx(
        PropsSI("P", "T", 313.15, "D", density, "CO2"), rel=0.005
    )
    assert not found.at_least


def test_pressure_beyond_the_model_is_a_lower_bound():
    found = warmed_carbon_dioxide(273.15, 400e5, 343.15)
    assert found.at_least
    assert found.pressure == 700e5


@pytest.mark.parametrize(("celsius", "bar"), [(40.0, 304.0), (60.0, 512.0)])
def test_closed_methanol_by_the_librarys_equation_of_state(celsius, bar):
    # 304 and 512 bar: worked with CoolProp 8.0.0 by an independent calculation

    def density(T, P):
        return PropsSI("D", "T", T, "P", P, "Methanol")

    found = warmed_liquid(density, 298.15, 150e5, celsius + 273.15)
    assert found.pressure / 1e5 == pytest.approx(bar, abs=1.0)


def test_cooling_a_closed_liquid_ends_at_the_lower_bound():
    found = warmed_liquid(lambda T, P: 1000.0 - T + P * 1e-7, 298.15, 10e5, 288.15)
    assert found.pressure == 1e5
    stiff = warmed_liquid(lambda T, P: np.float64(1000.0 - T), 298.15, 10e5, 308.15)
    assert stiff.at_least
