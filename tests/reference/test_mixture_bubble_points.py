"""Measured bubble points lie inside the printed band of the boundary, hardly any above it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest

from methodlint.fluids.mixtures.interaction_parameters import PAIRS
from methodlint.fluids.mixtures.mixture_choice import model_for
from tests.reference.bubble_points import bubble_points
from tests.reference.test_mixture_bubble_pressures import mass_fraction


class Deviations(NamedTuple):
    """Temperature [K], ours less measured, and the two ends of the band [Pa], of every point."""

    kelvin: np.ndarray
    off: np.ndarray
    below: np.ndarray
    above: np.ndarray


def deviations(name: str) -> Deviations:
    """Of the points inside the tables; excluded sources left out."""
    model = model_for(name)
    assert model is not None
    excluded = {doi for doi, _ in PAIRS[name].boundary.excluded}
    points = [
        point
        for point in bubble_points(name)
        if point.doi not in excluded and 273.0 <= point.kelvin <= 373.2
    ]
    w = np.array([mass_fraction(model, point.x_co2) for point in points])
    T = np.array([point.kelvin for point in points])
    band = model.boundary_band(w, T)
    off = model.upper_boundary_pressure(w, T) - np.array([point.bar for point in points]) * 1e5
    return Deviations(T, off, band.below, band.above)


@pytest.mark.parametrize("name", sorted(PAIRS))
def test_band_covers_the_points_and_few_lie_above_it(name: str) -> None:
    _, off, below, above = deviations(name)
    assert off.size >= 19
    assert np.mean((off < below) & (off > -above)) >= 0.95
    assert np.mean(off <= -above) <= 0.025


@pytest.mark.parametrize("name", ["methanol", "ethanol"])
def test_upper_half_is_sharp_to_40_c_where_there_are_points(name: str) -> None:
    model = model_for(name)
    assert model is not None
    w = np.linspace(0.02, 0.9, 30)
    for kelvin in (283.15, 293.15, 303.15, 313.15):
        for share in w[model.modifier_mole_fraction(w) >= 0.55]:
            assert model.boundary_is_validated(float(share), kelvin)
            assert float(model.boundary_band(share, kelvin).above) <= 6e5


def test_methanol_at_50_c_and_80_per_cent_of_co2_is_near_the_97_9_bar_measured() -> None:
    """10.1016/j.fluid.2012.02.018: 97.9 bar at 323.15 K, x(CO2) 0.796; 86 bar would pass 92 bar."""
    model = model_for("methanol")
    assert model is not None
    w = mass_fraction(model, 0.796)
    boundary = float(model.upper_boundary_pressure(w, 323.15))
    assert boundary + float(model.boundary_band(w, 323.15).above) > 97.9e5


def test_excluded_sources_exist_and_say_why() -> None:
    for name, pair in PAIRS.items():
        known = {point.doi for point in bubble_points(name)}
        for doi, reason in pair.boundary.excluded:
            assert doi in known
            assert len(reason) > 20
