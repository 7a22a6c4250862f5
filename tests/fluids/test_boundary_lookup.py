"""The tabulated two-phase envelope against the equation of state it was made from."""

from __future__ import annotations

import functools

import numpy as np
import pytest

from methodlint.fluids.boundary import load_boundary
from methodlint.fluids.boundary_tracing import Envelope, trace
from methodlint.fluids.interaction_parameters import PAIRS
from methodlint.fluids.mixture import model_for

NAMES = sorted(PAIRS)


BELOW, ABOVE = (12.4, 26.6), (33.3, 43.1, 58.2, 72.0, 93.3)
"""Temperatures [degC] between the nodes, on either side of the critical one of CO2, 31 degC."""


@functools.cache
def envelopes(name: str, celsius: tuple[float, ...]) -> dict[float, Envelope]:
    """Isotherms of one side, which cost hardly more together than one alone."""
    pair = PAIRS[name]
    T = np.array(celsius) + 273.15
    traced = trace(pair.cubic, T, pair.k12(T), supercritical=celsius == ABOVE, points=100)
    return dict(zip(celsius, traced, strict=True))


def envelope(name: str, celsius: float) -> Envelope:
    return envelopes(name, ABOVE if celsius in ABOVE else BELOW)[celsius]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("celsius", [*BELOW, *ABOVE])
def test_lookup_between_the_nodes_agrees_with_a_fresh_trace(name: str, celsius: float) -> None:
    """Bubble pressure within 0.3 bar + 0.3 % (the cubic's own saturation line of CO2 is corrected)."""
    traced = envelope(name, celsius)
    x2 = traced.liquid[5:]
    _, upper = load_boundary(name).limits(x2, celsius + 273.15)
    assert np.all(np.abs(upper - traced.pressure[5:]) < 0.3e5 + 0.003 * traced.pressure[5:])


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("celsius", [43.1, 58.2, 72.0])
def test_dew_line_holds_a_lower_and_a_retrograde_upper_pressure(name: str, celsius: float) -> None:
    traced = envelope(name, celsius)
    T = celsius + 273.15
    leanest = int(np.argmin(traced.vapour))
    # A tenth richer than a dew composition, well before the crest: inside, at that pressure.
    dew = (traced.vapour < 0.5) & (traced.pressure < 0.93 * traced.pressure.max())
    assert dew[leanest]
    for x2, pressure in zip(traced.vapour[dew], traced.pressure[dew], strict=True):
        low, high = load_boundary(name).limits(1.1 * x2, T)
        assert low < pressure < high
    low, high = load_boundary(name).limits(0.97 * traced.vapour[leanest], T)
    assert low == high == 0.0


@pytest.mark.parametrize("name", NAMES)
def test_a_composition_leaner_than_the_envelope_never_splits(name: str) -> None:
    model = model_for(name)
    assert model is not None
    for celsius in (40.0, 50.0, 60.0, 80.0):
        T = celsius + 273.15
        P = np.geomspace(1e5, 700e5, 50)
        assert np.all(np.isinf(model.boundary_margin(1e-4, T, P)))
        assert not model.two_phase(1e-4, T, P).any()
        assert model.upper_boundary_pressure(1e-4, T) == 0.0


def test_2_propanol_at_60_c_and_90_bar_splits_between_61_and_97_5_per_cent_of_co2() -> None:
    """Peng-Robinson with k12 = 0.10 of the literature (from memory), not a measurement."""
    model = model_for("IPA")
    assert model is not None
    x_co2 = np.linspace(0.4, 0.999, 600)
    carbon, modifier = x_co2 * 0.0440098, (1.0 - x_co2) * model.molar_mass
    split = x_co2[model.two_phase(modifier / (carbon + modifier), 333.15, 90e5)]
    assert split.min() == pytest.approx(0.61, abs=0.01)
    assert split.max() == pytest.approx(0.975, abs=0.005)


def test_margin_is_pressure_less_boundary_and_shapes_broadcast() -> None:
    model = model_for("methanol")
    assert model is not None
    w = np.linspace(0.05, 0.9, 5)[:, None]
    P = np.array([60e5, 80e5, 150e5])[None, :]
    margin = model.boundary_margin(w, 313.15, P)
    assert margin.shape == (5, 3)
    assert np.allclose(margin, P - model.upper_boundary_pressure(w, 313.15))
    assert np.all(margin[:, 2] > 65e5)


def test_gas_below_the_dew_pressure_is_one_phase() -> None:
    """5 mol % methanol at 40 C: vapour pressure of methanol 0.354 bar (CoolProp), Raoult 7 bar."""
    model = model_for("methanol")
    assert model is not None
    assert not model.two_phase(0.0369, 313.15, 5e5)
    assert model.two_phase(0.0369, 313.15, 12e5)


def test_band_is_five_bar_to_60_c_and_wider_above() -> None:
    model = model_for("ethanol")
    assert model is not None
    assert np.allclose(model.boundary_band(np.array([283.15, 333.15])), 5e5)
    assert model.boundary_band(353.15) > 5e5
