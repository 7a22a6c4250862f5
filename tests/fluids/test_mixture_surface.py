"""Density, viscosity and derivatives: finite, smooth, monotonic, exact at the pure ends."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.mixtures.interaction_parameters import PAIRS
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for

NAMES = sorted(PAIRS)
MODELS: dict[str, MixtureModel] = {}
for _name in NAMES:
    _found = model_for(_name)
    assert _found is not None
    MODELS[_name] = _found

temperatures = st.floats(273.15, 373.15)
pressures = st.floats(1e5, 700e5)
fractions = st.floats(0.0, 1.0)


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(NAMES), fractions, temperatures, pressures)
def test_finite_and_positive_everywhere(name: str, w: float, T: float, P: float) -> None:
    rho, eta = MODELS[name].density_and_viscosity(w, T, P)
    assert 0.5 < rho < 1250.0
    assert 8e-6 < eta < 1e-2


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(NAMES), fractions, temperatures)
def test_density_never_falls_with_pressure(name: str, w: float, T: float) -> None:
    """Two-phase states included."""
    rho = MODELS[name].density(w, T, np.geomspace(1e5, 700e5, 3000))
    assert np.all(np.diff(rho) > 0.0)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("celsius", [5.0, 25.0, 40.0, 60.0, 90.0])
def test_no_jumps_along_pressure_with_one_per_cent_of_modifier_or_more(
    name: str, celsius: float
) -> None:
    P = np.linspace(20e5, 300e5, 14001)
    for w in (0.01, 0.03, 0.1, 0.3, 0.6, 0.95):
        rho, eta = MODELS[name].density_and_viscosity(w, celsius + 273.15, P)
        # Steps of 0.02 bar.
        assert np.max(np.abs(np.diff(np.log(rho)))) < 0.01
        assert np.max(np.abs(np.diff(np.log(eta)))) < 0.01


@pytest.mark.parametrize("name", NAMES)
def test_no_jumps_along_composition_in_one_phase(name: str) -> None:
    w = np.linspace(0.0, 1.0, 20001)
    for T, P in (
        (283.15, 150e5),
        (313.15, 90e5),
        (313.15, 200e5),
        (333.15, 120e5),
        (353.15, 400e5),
    ):
        rho, eta = MODELS[name].density_and_viscosity(w, T, P)
        assert np.max(np.abs(np.diff(np.log(rho)))) < 0.002
        assert np.max(np.abs(np.diff(np.log(eta)))) < 0.002


@pytest.mark.parametrize("name", NAMES)
def test_pure_carbon_dioxide_end_is_the_surface(name: str) -> None:
    rng = np.random.default_rng(7)
    T, P = rng.uniform(273.15, 373.15, 3000), rng.uniform(2e5, 700e5, 3000)
    rho, eta = MODELS[name].density_and_viscosity(0.0, T, P)
    assert np.max(np.abs(rho / co2.density(T, P) - 1.0)) < 5e-4
    assert np.max(np.abs(eta / co2.viscosity(T, P) - 1.0)) < 5e-3


@pytest.mark.parametrize("name", NAMES)
def test_pure_modifier_end_is_the_liquid(name: str) -> None:
    rng = np.random.default_rng(8)
    T, P = rng.uniform(273.15, 373.15, 1000), rng.uniform(5e5, 700e5, 1000)
    rho, eta = MODELS[name].density_and_viscosity(1.0, T, P)
    assert np.max(np.abs(rho / MODELS[name].modifier_density(T, P) - 1.0)) < 1e-3
    assert np.max(np.abs(eta / MODELS[name].modifier.viscosity(T, P) - 1.0)) < 0.01


def test_derivatives_at_the_pure_end_are_those_of_carbon_dioxide() -> None:
    """Against the CO2 surfaces (Span & Wagner 1996)."""
    T, P = np.array([298.15, 313.15, 333.15]), np.array([200e5, 150e5, 180e5])
    model = MODELS["methanol"]
    assert np.allclose(model.compressibility(0.0, T, P), co2.compressibility(T, P), rtol=0.01)
    assert np.allclose(model.expansivity(0.0, T, P), co2.expansivity(T, P), rtol=0.01)
    assert np.allclose(model.heat_capacity(0.0, T, P), co2.heat_capacity(T, P), rtol=0.002)
    assert np.allclose(model.isenthalpic_slope(0.0, T, P), co2.isenthalpic_slope(T, P), rtol=0.02)


def test_liquid_modifier_warms_on_expansion() -> None:
    """(dT/dP)_h = -(1 - T alpha)/(rho cp): methanol at 25 C about -0.03 K/bar.

    With alpha = 1.2e-3 1/K, rho = 787 kg/m3, cp = 2530 J/(kg K), handbook values from memory.

    """
    expected = -(1.0 - 298.15 * 1.2e-3) / (787.0 * 2530.0)
    slope = float(MODELS["methanol"].isenthalpic_slope(1.0, 298.15, 50e5))
    assert slope == pytest.approx(expected, rel=0.10)


def test_leaving_the_range_is_reported_as_data() -> None:
    model = MODELS["methanol"]
    assert model.outside(313.15, 150e5) == []
    ((limits, distance),) = model.outside(np.array([300.0, 390.0]), 150e5)
    assert limits.quantity == "temperature"
    assert distance == pytest.approx(390.0 - limits.upper)
