"""Cold and heat at the regulator, and closed volumes, against handbook and library figures."""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from methodlint.hydraulics.closed_volume import warmed_carbon_dioxide, warmed_liquid
from methodlint.hydraulics.expansion import ATMOSPHERE, ExpandedLiquid, regulator_heat

GRAM_MIN = 1e-3 / 60.0
# enthalpy of vaporization of methanol at 25 °C: 37.4 kJ/mol = 1168 J/g (handbooks; from memory),
# heat capacity 2.53 J/(g K) (handbooks; from memory)
METHANOL = ExpandedLiquid(0.44 * GRAM_MIN, 2530.0, 1.168e6)


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


def test_evaporating_the_modifier_costs_more_than_warming_carbon_dioxide():
    found = regulator_heat(313.15, 150e5, 1.6 * GRAM_MIN, 293.15, (METHANOL,), evaporate=True)
    assert found.evaporation == pytest.approx(8.6, abs=0.1)
    # liquid that arrives at 40 °C brings 20 K along
    assert found.liquid == pytest.approx(-0.44 * GRAM_MIN * 2530.0 * 20.0, rel=1e-9)
    assert found.total == pytest.approx(5.76 + 8.57 - 0.37, abs=0.05)
    assert regulator_heat(313.15, 150e5, 1.6 * GRAM_MIN, 293.15, (METHANOL,)).evaporation == 0.0


def test_evaporation_without_its_enthalpy_is_refused():
    unknown = ExpandedLiquid(0.4 * GRAM_MIN, 2000.0)
    with pytest.raises(ValueError, match="enthalpy of vaporization"):
        regulator_heat(313.15, 150e5, 1.6 * GRAM_MIN, 293.15, (unknown,), evaporate=True)


@pytest.mark.parametrize(("end_bar", "celsius"), [(10, -40), (6, -53)])
def test_expansion_ends_on_the_boiling_line_above_the_triple_point(end_bar, celsius):
    # worked with CoolProp 8.0.0 by an independent calculation
    found = regulator_heat(313.15, 150e5, 1.6 * GRAM_MIN, 293.15, end_pressure=end_bar * 1e5)
    assert found.end_temperature - 273.15 == pytest.approx(celsius, abs=0.7)
    assert 0.0 < found.vapour_fraction < 1.0
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
