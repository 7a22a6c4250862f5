"""States at a few temperatures are those at any temperature, to rounding."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.fluids.co2 import states as co2_states
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.fluids.validity import OutOfRange

# Cold and warm of the critical temperature (304.1282 K, Span & Wagner 1996), and close to it.
TEMPERATURES = np.array([283.15, 293.15, 303.9, 304.1282, 304.3, 313.15, 333.15, 368.15])


def _states(count: int, seed: int) -> tuple[np.ndarray, np.ndarray]:
    random = np.random.default_rng(seed)
    return random.integers(0, TEMPERATURES.size, count), random.uniform(1e5, 690e5, count)


def test_carbon_dioxide_at_few_temperatures_is_that_at_any() -> None:
    which, P = _states(4000, 1)
    rho, eta = co2_states.CarbonDioxideIsotherms(TEMPERATURES).density_and_viscosity(which, P)
    whole = co2_states.density_and_viscosity(TEMPERATURES[which], P)
    np.testing.assert_allclose(rho, whole[0], rtol=1e-11)
    np.testing.assert_allclose(eta, whole[1], rtol=1e-11)


def test_states_beyond_the_surfaces_come_from_the_equation() -> None:
    T = np.array([313.15, 420.0])
    which, P = np.array([0, 1, 0]), np.array([150e5, 150e5, 705e5])
    rho, eta = co2_states.CarbonDioxideIsotherms(T).density_and_viscosity(which, P)
    whole = co2_states.density_and_viscosity(T[which], P)
    np.testing.assert_allclose(rho, whole[0], rtol=1e-12)
    np.testing.assert_allclose(eta, whole[1], rtol=1e-12)
    with pytest.raises(OutOfRange):
        co2_states.CarbonDioxideIsotherms(np.array([800.0])).density_and_viscosity(which[:1], P[:1])


@pytest.mark.parametrize("modifier", ["methanol", "2-propanol", "carbon dioxide"])
def test_mixtures_at_few_temperatures_are_those_at_any(modifier: str) -> None:
    model = model_for(modifier)
    assert model is not None
    which, P = _states(4000, 2)
    w = np.random.default_rng(3).uniform(0.0, 0.6, P.size)
    rho, eta = model.isotherms(TEMPERATURES).density_and_viscosity(w, which, P)
    whole = model.density_and_viscosity(w, TEMPERATURES[which], P)
    assert (P < model.highest_two_phase_pressure(TEMPERATURES[which])).any(), "two phases too"
    np.testing.assert_allclose(rho, whole[0], rtol=1e-9)
    np.testing.assert_allclose(eta, whole[1], rtol=1e-9)


def test_a_state_is_the_same_alone_and_in_company() -> None:
    model = model_for("ethanol")
    assert model is not None
    which, P = _states(50, 4)
    w = np.linspace(0.0, 0.5, P.size)
    rho, _ = model.isotherms(TEMPERATURES).density_and_viscosity(w, which, P)
    for k in range(P.size):
        one = model.isotherms(TEMPERATURES[which[k : k + 1]])
        assert one.density_and_viscosity(w[[k]], np.array([0]), P[[k]])[0][0] == rho[k]
