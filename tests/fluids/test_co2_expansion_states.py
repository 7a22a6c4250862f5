"""Isenthalpic ends and temperatures from enthalpy, against the reference equation of state."""

import numpy as np
import pytest
from CoolProp import CoolProp

from methodlint.fluids.bracketed_root import bracketed_root
from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.co2.melting_span_wagner_1996 import melting_pressure, melting_temperature


def _equation(output, **inputs):
    (first, a), (second, b) = inputs.items()
    return CoolProp.PropsSI(output, first, a, second, b, "CO2")


def test_temperature_from_enthalpy_inverts_the_equation():
    rng = np.random.default_rng(3)
    kelvin, pascal = rng.uniform(264.0, 373.0, 400), np.exp(rng.uniform(11.52, 18.06, 400))
    h = np.array([_equation("H", T=t, P=p) for t, p in zip(kelvin, pascal, strict=True)])
    assert co2.temperature_from_enthalpy(h, pascal) == pytest.approx(kelvin, abs=0.005)


@pytest.mark.parametrize(
    ("start_celsius", "start_bar"), [(40.0, 120.0), (35.0, 150.0), (60.0, 150.0), (25.0, 400.0)]
)
@pytest.mark.parametrize("end_bar", [100.0, 60.0, 20.0, 6.0])
def test_isenthalpic_end_above_the_triple_pressure(start_celsius, start_bar, end_bar):
    h = _equation("H", T=start_celsius + 273.15, P=start_bar * 1e5)
    end = co2.isenthalpic_end(start_celsius + 273.15, start_bar * 1e5, end_bar * 1e5)
    assert not end.solid
    assert end.temperature == pytest.approx(_equation("T", H=h, P=end_bar * 1e5), abs=0.005)
    quality = _equation("Q", H=h, P=end_bar * 1e5)
    if 0.0 <= quality <= 1.0:
        assert end.vapour_fraction == pytest.approx(quality, abs=1e-4)


def test_cold_gas_between_the_triple_point_and_the_surfaces():
    for kelvin, pascal in [(217.0, 5.2e5), (221.0, 5.5e5), (226.0, 6e5), (232.0, 9e5)]:
        h = _equation("H", T=kelvin, P=pascal)
        assert co2.temperature_from_enthalpy(h, pascal) == pytest.approx(kelvin, abs=0.02)


def test_cold_liquid_and_hot_gas_come_from_the_equation():
    for kelvin, pascal in [(225.0, 2e7), (420.0, 1e7)]:
        h = _equation("H", T=kelvin, P=pascal)
        assert co2.temperature_from_enthalpy(h, pascal) == pytest.approx(kelvin, abs=1e-6)


def test_expansion_through_the_triple_pressure_starts_to_make_dry_ice():
    end = co2.isenthalpic_end(313.15, 120e5, np.array([5.2e5, 5.17e5, 1.01325e5]))
    assert end.solid.tolist() == [False, True, True]
    # freezing sets heat free at the triple point, so more of the stream is vapour beyond it
    assert np.all(np.diff(end.vapour_fraction) > 0.0)
    assert np.all(np.diff(end.temperature) < 0.0)


def test_warm_stream_at_low_pressure_makes_no_dry_ice():
    end = co2.isenthalpic_end(363.15, 100e5, 1.01325e5)
    h = _equation("H", T=363.15, P=100e5)
    assert not end.solid
    assert end.vapour_fraction == 1.0
    assert end.temperature == pytest.approx(_equation("T", H=h, P=1.01325e5), abs=0.01)


def test_no_pressure_drop_changes_nothing():
    kelvin, pascal = np.array([283.15, 313.15, 333.15]), np.array([80e5, 120e5, 300e5])
    end = co2.isenthalpic_end(kelvin, pascal, pascal)
    assert end.temperature == pytest.approx(kelvin, abs=1e-5)
    assert not end.solid.any()


def test_single_phases_count_as_dense_or_light():
    end = co2.isenthalpic_end([283.15, 333.15, 333.15], [300e5, 150e5, 300e5], [80e5, 80e5, 280e5])
    assert end.vapour_fraction.tolist() == [0.0, 1.0, 0.0]


def test_joule_thomson_inversion_at_40_celsius():
    # 436.1 bar, computed with the equation of Span & Wagner (1996), no printed table at hand
    slope = co2.isenthalpic_slope(313.15, np.array([434e5, 438.2e5]))
    assert slope[0] > 0.0 > slope[1]
    step = co2.isenthalpic_end(313.15, 437e5, 435e5)
    assert step.temperature == pytest.approx(313.15, abs=2e-3)


def test_joule_thomson_coefficient_is_the_slope_of_an_isenthalpic_step():
    rng = np.random.default_rng(5)
    kelvin, pascal = rng.uniform(290.0, 350.0, 50), rng.uniform(1e7, 4e7, 50)
    up = co2.isenthalpic_end(kelvin, pascal, pascal + 1e5).temperature
    down = co2.isenthalpic_end(kelvin, pascal, pascal - 1e5).temperature
    slope = co2.isenthalpic_slope(kelvin, pascal) * 1e5
    assert (up - down) / 2.0 == pytest.approx(slope, abs=2e-3)


def test_ends_outside_the_models_are_refused():
    with pytest.raises(co2.OutOfRange):
        co2.isenthalpic_end(313.15, 120e5, 0.1e5)
    with pytest.raises(co2.OutOfRange) as caught:
        co2.temperature_from_enthalpy(-300e3, 1e5)
    assert caught.value.quantity == "enthalpy"
    with pytest.raises(co2.OutOfRange) as caught:
        co2.temperature_from_enthalpy(-500e3, 100e5)
    assert caught.value.outside_by < 0.0
    with pytest.raises(co2.OutOfRange):
        co2.temperature_from_enthalpy(np.nan, 100e5)
    with pytest.raises(co2.OutOfRange):
        co2.temperature_from_enthalpy(5e6, 100e5)


def test_melting_line_inverts_itself_and_matches_the_library():
    state = CoolProp.AbstractState("HEOS", "CO2")
    for pascal in (1e6, 7e7, 3e8):
        kelvin = state.melting_line(CoolProp.iT, CoolProp.iP, pascal)
        assert melting_temperature(pascal) == pytest.approx(kelvin, rel=1e-9)
        assert melting_pressure(kelvin) == pytest.approx(pascal, rel=1e-6)


def test_bracketed_roots():
    target = np.array([0.0, 1e-6, 0.3, 0.999, 1.0])
    found = bracketed_root(lambda x: x**3 - target, np.zeros(5), np.ones(5), 1e-12)
    assert found == pytest.approx(np.cbrt(target), abs=1e-10)


def test_bracketed_root_lands_on_a_jump():
    found = bracketed_root(lambda x: np.where(x < 0.3, -1.0, 2.0), np.zeros(1), np.ones(1), 1e-9)
    assert found == pytest.approx([0.3], abs=1e-8)
