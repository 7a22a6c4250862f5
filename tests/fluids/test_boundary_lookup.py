"""The tabulated two-phase envelope against the equation of state it was made from."""

from __future__ import annotations

import functools

import numpy as np
import pytest

from methodlint.fluids.mixtures.boundary import load_boundary
from methodlint.fluids.mixtures.boundary_tracing import PhaseEnvelope, trace
from methodlint.fluids.mixtures.interaction_parameters import PAIRS
from methodlint.fluids.mixtures.mixture_choice import model_for

NAMES = sorted(PAIRS)


BELOW, ABOVE = (12.4, 26.6), (33.3, 43.1, 58.2, 72.0, 93.3)
"""Temperatures [degC] between the nodes, on either side of the critical one of CO2, 31 degC."""


@functools.cache
def envelopes(name: str, celsius: tuple[float, ...]) -> dict[float, PhaseEnvelope]:
    """Isotherms of one side, which cost hardly more together than one alone."""
    pair = PAIRS[name]
    T = np.array(celsius) + 273.15
    traced = trace(pair.cubic, T, pair.boundary.at(T), supercritical=celsius == ABOVE, points=100)
    return dict(zip(celsius, traced, strict=True))


def envelope(name: str, celsius: float) -> PhaseEnvelope:
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


def test_band_has_two_ends_and_is_wider_where_nothing_was_measured() -> None:
    model = model_for("methanol")
    assert model is not None
    rich, lean = 0.6, 0.08  # x(CO2) 0.33 and 0.89
    below, above = model.boundary_band(rich, 313.15)
    assert 0.0 < below < above <= 6e5
    assert model.boundary_is_validated(rich, 313.15)
    assert not model.boundary_is_validated(lean, 333.15)
    assert model.boundary_band(lean, 333.15).above > model.boundary_band(rich, 333.15).above


def test_band_of_pure_carbon_dioxide_is_that_of_its_saturation_line() -> None:
    pure = model_for("CO2")
    assert pure is not None
    assert pure.boundary_band(0.0, 298.15).above == pytest.approx(1e5)


@pytest.mark.parametrize("name", NAMES)
def test_boundary_has_no_kink_at_the_critical_temperature_of_co2(name: str) -> None:
    """Slopes of the boundary below and above 31 C differ by less than 1 bar/K at SFC compositions."""
    table = load_boundary(name)
    for x2 in (0.02, 0.05, 0.10, 0.30):
        at = [float(table.limits(x2, kelvin)[1]) for kelvin in (301.15, 303.15, 305.15, 307.15)]
        slopes = np.diff(at) / 2.0
        assert np.ptp(slopes) < 1e5, (x2, slopes)
