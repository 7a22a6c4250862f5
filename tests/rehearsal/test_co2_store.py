"""Pressures of a store against tabulated states of CO2 (Span and Wagner 1996, through CoolProp)."""

from __future__ import annotations

import pytest

from methodlint.documents.kinds.supply import Supply
from methodlint.fluids.co2 import properties as co2
from methodlint.rehearsal.bench import chiller, co2_store

ZERO = 273.15


def _supply(**fields: object) -> Supply:
    return Supply.model_validate({"kind": "supply", **fields})


@pytest.mark.parametrize(
    ("filled", "pressures"),
    [
        (750.0, {25: 72, 30: 92, 35: 112, 40: 133, 45: 154, 50: 175}),
        (667.0, {25: 64, 30: 76, 35: 91, 40: 106, 45: 122, 50: 138}),
    ],
)
def test_cylinder_pressure_at_fill_and_temperature(
    filled: float, pressures: dict[int, int]
) -> None:
    """Span and Wagner 1996 at constant density, computed with CoolProp 8.0.0; rounded to bar."""
    for temperature, expected in pressures.items():
        found = co2_store.cylinder_pressure(ZERO + temperature, filled) / 1e5
        assert found == pytest.approx(expected, abs=0.6)


def test_cylinder_above_the_critical_temperature() -> None:
    """34 degC: 108 bar at 750 g/L, 76 bar at 300 g/L (Span and Wagner 1996, CoolProp 8.0.0)."""
    assert co2_store.cylinder_pressure(ZERO + 34, 750.0) / 1e5 == pytest.approx(108, abs=0.6)
    assert co2_store.cylinder_pressure(ZERO + 34, 300.0) / 1e5 == pytest.approx(76, abs=0.6)


def test_temperature_at_pressure_inverts_the_table() -> None:
    """133 bar at 0.75 g/mL is reached at 40 degC (Span and Wagner 1996, CoolProp 8.0.0)."""
    found = co2_store.temperature_at_pressure(750.0, 133e5)
    assert found is not None
    assert found - ZERO == pytest.approx(40.0, abs=0.2)
    assert co2_store.temperature_at_pressure(300.0, 600e5) is None


def test_store_and_head_of_a_cold_yard() -> None:
    """Saturation 37.7 bar at 3 degC, 42.8 bar at 8 degC (Span and Wagner 1996, CoolProp 8.0.0)."""
    cold = co2_store.store_pressure(_supply(), ZERO + 3)
    assert cold is not None
    assert cold / 1e5 == pytest.approx(37.7, abs=0.05)
    needed = co2_store.pressure_needed(ZERO + 8, 0.0)
    assert (needed - co2_store.SUBCOOLING) / 1e5 == pytest.approx(42.8, abs=0.05)
    store = co2_store.store_temperature_needed(ZERO + 8, 0.0)
    head = co2_store.head_temperature_needed(cold, 0.0)
    assert store is not None and 10.0 < store - ZERO <= 11.0
    assert head is not None and -1.0 <= head - ZERO < 0.0


def test_store_pressure_with_gas_alone_follows_the_fill() -> None:
    """5.844 kg in 50 L at 20 degC stands at 45 bar (Span and Wagner 1996, CoolProp 8.0.0)."""
    supply = _supply(water_capacity="50 L", net_mass="5.844 kg")
    found = co2_store.store_pressure(supply, ZERO + 20)
    assert found is not None
    assert found / 1e5 == pytest.approx(45.0, abs=0.1)


def test_store_pressure_above_critical_without_fill_is_not_known() -> None:
    assert co2_store.store_pressure(_supply(), ZERO + 34) is None


def test_gas_alone() -> None:
    """Saturated vapour at 20 degC: 194 kg/m3 (Span and Wagner 1996), 9.7 kg in 50 L."""
    common = {"water_capacity": "50 L", "store_temperature": "20 degC"}
    assert co2_store.gas_alone(_supply(**common, net_mass="9.6 kg"))
    assert not co2_store.gas_alone(_supply(**common, net_mass="9.8 kg"))
    assert co2_store.gas_alone(_supply(store_temperature="34 degC"))
    assert not co2_store.gas_alone(_supply(store_temperature="20 degC"))


def test_mean_density_fresh_now_and_of_a_bank() -> None:
    supply = _supply(
        water_capacity="50 L",
        cylinders=2,
        net_mass="40 kg",
        used_since_weighed="10 kg",
        full_mass="75 kg",
    )
    assert co2_store.mean_density(supply) == pytest.approx(300.0)
    assert co2_store.mean_density(supply, fresh=True) == pytest.approx(750.0)
    assert co2_store.mean_density(_supply(filling_ratio="0.68 g/mL"), fresh=True) == 680.0
    assert co2_store.mean_density(_supply(net_mass="10 kg")) is None


def test_weakest_part_includes_the_relief() -> None:
    parts = [{"part": "hose", "pressure_rating": "250 bar"}]
    weakest = co2_store.weakest_part(_supply(rated_parts=parts, cylinder_relief="190 bar"))
    assert weakest is not None
    assert (weakest.rating, weakest.path) == (190e5, ("cylinder_relief",))
    assert co2_store.weakest_part(_supply()) is None


def test_cooler_heat_from_a_hot_store() -> None:
    """From 34 degC and 76 bar (309 g/L) to 8 degC: about 170 kJ/kg, 8.2 W at 2.9 g/min
    (Span and Wagner 1996, CoolProp 8.0.0)."""
    hot = {"store_temperature": {"value": "34 degC", "tolerance": "0 K"}}
    store = _supply(water_capacity="10 L", net_mass="3.09 kg", **hot)
    heat = chiller.cooler_heat_per_mass(store, ZERO + 8)
    assert heat is not None
    assert heat / 1e3 == pytest.approx(170.0, abs=2.5)
    assert heat * 2.9e-3 / 60.0 == pytest.approx(8.2, abs=0.1)


def test_cooler_heat_of_a_hot_store_is_that_of_its_last_fill() -> None:
    """At 34 degC 200 g/L hold 66.7 bar: 39.1 kJ/kg more than at 309 g/L (CoolProp 8.0.0)."""
    hot = {"store_temperature": {"value": "34 degC", "tolerance": "0 K"}}
    store = _supply(water_capacity="10 L", net_mass="3.09 kg", **hot)
    first = chiller.cooler_heat_per_mass(store, ZERO + 8)
    last = chiller.cooler_heat_per_mass(store, ZERO + 8, 1.09)
    assert first is not None and last is not None
    assert (last - first) / 1e3 == pytest.approx(39.1, abs=2.5)
    # With liquid in it the pressure, and so the heat, stays.
    cool = {"store_temperature": {"value": "20 degC", "tolerance": "0 K"}}
    full = _supply(water_capacity="10 L", net_mass="6 kg", **cool)
    assert chiller.cooler_heat_per_mass(full, ZERO + 8, 1.0) == chiller.cooler_heat_per_mass(
        full, ZERO + 8
    )


def test_cooler_heat_of_the_three_withdrawals() -> None:
    """Enthalpy of vaporization at 20 degC: 152 kJ/kg (Span and Wagner 1996, table of saturation,
    from memory): a condensing pump takes that much more than one fed by a dip tube."""
    common = {"store_temperature": {"value": "20 degC", "tolerance": "0 K"}}
    liquid = chiller.cooler_heat_per_mass(_supply(withdrawal="liquid", **common), ZERO + 8)
    vapour = chiller.cooler_heat_per_mass(_supply(withdrawal="vapour", **common), ZERO + 8)
    assert liquid is not None and vapour is not None
    assert (vapour - liquid) / 1e3 == pytest.approx(152.0, abs=2.0)
    assert 25e3 < liquid < 50e3


def test_cooler_heat_of_a_warm_line_boils_the_liquid() -> None:
    common = {"store_temperature": {"value": "20 degC", "tolerance": "0 K"}}
    cold = chiller.cooler_heat_per_mass(_supply(**common), ZERO + 8)
    warm = chiller.cooler_heat_per_mass(_supply(**common, line_temperature="28 degC"), ZERO + 8)
    assert cold is not None and warm is not None
    assert warm > cold + 100e3
    assert chiller.cooler_heat_per_mass(_supply(), ZERO + 8) is None


def test_subcooling_needs_no_more_than_the_critical_pressure() -> None:
    assert co2_store.store_temperature_needed(ZERO + 30, 0.0) is None
    assert co2_store.head_temperature_needed(co2.TRIPLE_PRESSURE, 0.0) is None


def test_cylinder_pressure_is_a_bound_where_the_equation_ends() -> None:
    """The equation ends at 8000 bar (Span and Wagner 1996, 800 MPa); thin gas is ideal:
    1e-9 kg/m3 x 8.314 x 293.15 / 0.04401 = 5.5e-5 Pa."""
    assert co2_store.cylinder_pressure(ZERO + 20, 3000.0) == 800e6
    assert co2_store.cylinder_pressure(ZERO + 20, 1e-9) == pytest.approx(5.54e-5, rel=1e-3)
    assert co2_store.cylinder_pressure(ZERO + 20, 0.0) == 0.0
