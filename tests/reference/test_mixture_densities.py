"""Measured densities of carbon dioxide with 2-propanol and ethanol; see `mixture_densities`."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.fluids.mixtures.mixture_choice import model_for
from tests.reference.mixture_densities import densities
from tests.reference.test_mixture_viscosity import mass_fraction


@pytest.mark.parametrize(
    ("modifier", "count", "mean", "most"),
    [("2-propanol", 315, 0.008, 0.025), ("ethanol", 107, 0.016, 0.030)],
)
def test_measured_densities_lie_in_the_band(
    modifier: str, count: int, mean: float, most: float
) -> None:
    found = densities(modifier)
    assert found.measured.size >= 0.95 * count
    assert np.mean(np.abs(found.off)) < mean
    assert np.quantile(np.abs(found.off), 0.95) < most
    assert np.mean(np.abs(found.off) < found.band) >= 0.95


@pytest.mark.parametrize("modifier", ["methanol", "ethanol", "2-propanol"])
def test_the_band_is_sharp_away_from_the_boundary(modifier: str) -> None:
    model = model_for(modifier)
    assert model is not None
    for x_co2 in (0.5, 0.8, 0.95):
        band = float(model.density_band(mass_fraction(model, x_co2), 313.15, 200e5))
        assert 0.005 < band < 0.035
