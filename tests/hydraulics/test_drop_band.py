"""Bands of pressure drops, against a sample of what a drop is made of.

Flow resistance: Carman 1937 (constant 180) and Ergun 1952 (150) with porosity 0.38 to 0.40.
Tolerances of particles, bores and flows: common practice, no source.
"""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.hydraulics.columns import DEFAULT_FLOW_RESISTANCE, kozeny_carman_resistance
from methodlint.hydraulics.drop_band import (
    CALIBRATED_BAND,
    RULES_OF_VISCOSITY,
    SHARES,
    calibrated_drop_band,
    uncalibrated_drop_band,
)

_COUNT = 100_000


def sample() -> np.ndarray:
    """Drops over the computed one at the nodes of the table, shape (_COUNT, 8)."""
    random = np.random.default_rng(18)
    least = float(kozeny_carman_resistance(0.40, 150.0))
    most = float(kozeny_carman_resistance(0.38, 180.0))
    bed = random.uniform(least, most, _COUNT) / DEFAULT_FLOW_RESISTANCE
    bed /= random.uniform(0.97, 1.03, _COUNT) ** 2  # particle size
    bed /= random.uniform(0.99, 1.01, _COUNT) ** 2  # bore of the column
    bed *= random.uniform(0.98, 1.02, _COUNT)  # flow
    low, high = (np.log(side) for side in RULES_OF_VISCOSITY)
    # One rule holds at every composition.
    rule = random.uniform(0.0, 1.0, (_COUNT, 1))
    return bed[:, None] * np.exp(low + rule * (high - low))


def test_the_resistances_are_those_of_the_two_laws() -> None:
    assert float(kozeny_carman_resistance(0.40, 150.0)) == pytest.approx(844, abs=1)
    assert float(kozeny_carman_resistance(0.38, 180.0)) == pytest.approx(1261, abs=1)


def test_the_table_holds_the_quantiles_of_the_sample() -> None:
    low, high = np.quantile(sample(), [0.025, 0.975], axis=0)
    band = uncalibrated_drop_band(SHARES)
    print(np.round(1.0 - low, 3), np.round(high - 1.0, 3))
    assert band.below == pytest.approx(1.0 - low, abs=0.01)
    assert band.above == pytest.approx(high - 1.0, abs=0.01)


def test_a_measured_pressure_takes_out_what_is_common() -> None:
    drops = sample()
    for node, share in enumerate(SHARES):
        relative = drops / drops[:, [node]]
        band = calibrated_drop_band(SHARES, [float(share)])
        inside = (relative > 1.0 - band.below) & (relative < 1.0 + band.above)
        assert np.all(inside.mean(axis=0) >= 0.95)
        assert band.above[node] == pytest.approx(CALIBRATED_BAND, abs=0.002)


def test_a_second_one_at_another_composition_takes_out_what_changes_between() -> None:
    one = calibrated_drop_band([0.2], [0.05])
    two = calibrated_drop_band([0.2], [0.05, 0.4])
    assert two.above[0] < 0.75 * one.above[0]
    assert calibrated_drop_band([0.05, 0.4], [0.05, 0.4]).above == pytest.approx(0.05, abs=0.002)
