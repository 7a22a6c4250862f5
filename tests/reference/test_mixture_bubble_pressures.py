"""Bubble pressures of CO2 + ethanol and CO2 + methanol against published isotherms."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for

CO2 = 0.0440098

# Galicia-Luna, Ortega-Rodriguez & Richon 2000, J. Chem. Eng. Data 45, 265; 313.14 K (through a
# script that names no paper; the attribution is from memory): mole fraction of CO2 in the liquid,
# pressure [bar].
ETHANOL_313 = (
    (0.053, 9.1),
    (0.101, 18.4),
    (0.172, 29.2),
    (0.228, 39.3),
    (0.280, 45.0),
    (0.320, 49.7),
    (0.361, 54.9),
    (0.400, 59.0),
    (0.440, 63.1),
    (0.490, 66.5),
    (0.749, 77.3),
)

# Ohgaki & Katayama 1976, J. Chem. Eng. Data 21, 53; Suzuki et al. 1990 ibid. 35, 63; Bezanehtak
# 2002: rounded, from memory, tolerance 10 %. Temperature [C], mole fraction of CO2, pressure
# [bar].
METHANOL = (
    (25.0, 0.22, 30.0),
    (25.0, 0.48, 50.0),
    (40.0, 0.31, 50.0),
    (40.0, 0.53, 70.0),
    (40.0, 0.65, 75.0),
)


def model(name: str) -> MixtureModel:
    found = model_for(name)
    assert found is not None
    return found


def mass_fraction(found: MixtureModel, x_co2: float) -> float:
    modifier = (1.0 - x_co2) * found.molar_mass
    return modifier / (modifier + x_co2 * CO2)


def test_ethanol_at_313_k_after_galicia_luna_2000_within_four_per_cent_in_the_mean() -> None:
    found = model("ethanol")
    deviations = []
    for x_co2, bar in ETHANOL_313:
        computed = found.upper_boundary_pressure(mass_fraction(found, x_co2), 313.14)
        deviations.append(abs(float(computed) / (bar * 1e5) - 1.0))
    assert np.mean(deviations) <= 0.04


@pytest.mark.parametrize(("celsius", "x_co2", "bar"), METHANOL)
def test_methanol_within_ten_per_cent_of_rounded_values_from_memory(
    celsius: float, x_co2: float, bar: float
) -> None:
    found = model("methanol")
    computed = found.upper_boundary_pressure(mass_fraction(found, x_co2), celsius + 273.15)
    assert float(computed) == pytest.approx(bar * 1e5, rel=0.10)


def test_dew_side_of_ethanol_at_313_k_after_galicia_luna_2000() -> None:
    """The gas over these liquids holds 0.8-2.3 mol % ethanol: such a gas is one phase just below."""
    found = model("ethanol")
    # Mole fraction of CO2 in the vapour and pressure [bar], the same source; +-0.4 mol % is
    # allowed.
    for y_co2, bar in ((0.989, 39.3), (0.991, 45.0), (0.992, 59.0), (0.990, 66.5)):
        richer = mass_fraction(found, y_co2 - 0.004)
        leaner = mass_fraction(found, min(y_co2 + 0.004, 1.0))
        assert found.two_phase(richer, 313.14, bar * 1e5)
        assert not found.two_phase(leaner, 313.14, bar * 1e5)
