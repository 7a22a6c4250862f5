"""Which modifiers have a model, and what a blend or a little water does to it."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for


def model(modifier: str | tuple[tuple[str, float], ...]) -> MixtureModel:
    found = model_for(modifier)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("asked", "name"),
    [("MeOH", "methanol"), ("IPA", "2-propanol"), ("ACN", "acetonitrile"), ("ethanol", "ethanol")],
)
def test_synonyms(asked: str, name: str) -> None:
    assert model(asked).name == name


@pytest.mark.parametrize(
    "modifier",
    [
        "n-hexane",
        "water",
        "no such liquid",
        (("methanol", 0.85), ("water", 0.15)),
        (("methanol", 0.5), ("dichloromethane", 0.5)),
        (("methanol", 0.95), ("formic acid", 0.05)),
        (),
    ],
)
def test_what_has_no_model(modifier: str | tuple[tuple[str, float], ...]) -> None:
    assert model_for(modifier) is None


def test_a_trace_of_additive_is_ignored_and_said_so() -> None:
    found = model((("methanol", 0.999), ("formic acid", 0.001)))
    assert found.density(0.2, 313.15, 150e5) == pytest.approx(
        model("methanol").density(0.2, 313.15, 150e5), rel=1e-9
    )
    assert "formic acid" in found.note


def test_blend_lies_between_its_components() -> None:
    blend = model((("methanol", 0.5), ("2-propanol", 0.5)))
    ends = model("methanol"), model("2-propanol")
    assert ends[0].molar_mass < blend.molar_mass < ends[1].molar_mass
    for T in (298.15, 313.15, 333.15):
        rho = [float(m.density(0.3, T, 200e5)) for m in (*ends, blend)]
        eta = [float(m.viscosity(0.3, T, 200e5)) for m in (*ends, blend)]
        crest = [float(m.highest_two_phase_pressure(T)) for m in (*ends, blend)]
        for first, second, mixed in (rho, eta, crest):
            assert min(first, second) * 0.99 <= mixed <= max(first, second) * 1.01
    assert blend.boundary_band(0.3, 313.15).above > ends[0].boundary_band(0.3, 313.15).above
    assert not blend.boundary_is_validated(0.3, 313.15)


def test_order_and_scale_of_the_shares_do_not_matter() -> None:
    one = model((("methanol", 0.5), ("ethanol", 0.5)))
    other = model((("ethanol", 1.0), ("methanol", 1.0)))
    assert one.density(0.2, 313.15, 150e5) == pytest.approx(other.density(0.2, 313.15, 150e5))


def test_water_up_to_ten_per_cent_widens_the_bands_and_makes_the_liquid_denser() -> None:
    dry, wet = model("methanol"), model((("methanol", 0.95), ("water", 0.05)))
    wide, narrow = wet.boundary_band(0.5, 313.15), dry.boundary_band(0.5, 313.15)
    assert float(wide.above) >= float(narrow.above) + 9e5
    assert wet.viscosity_band > dry.viscosity_band
    assert wet.density_band(0.2, 313.15, 150e5) > dry.density_band(0.2, 313.15, 150e5)
    # 95:5 by volume of 791.3 and 998.2 kg/m3 (handbook, 20 C), ideal volumes.
    assert wet.modifier_density(293.15) == pytest.approx(0.95 * 791.3 + 0.05 * 998.2, rel=0.002)
    assert "water" in wet.note


def test_pure_carbon_dioxide_is_a_model() -> None:
    pure = model("carbon dioxide")
    T, P = np.array([298.15, 313.15]), np.array([100e5, 100e5])
    assert np.allclose(pure.density(0.0, T, P), co2.density(T, P), rtol=5e-4)
    assert np.allclose(pure.modifier_mole_fraction(np.array([0.0, 0.0])), 0.0)
    assert pure.highest_two_phase_pressure(298.15) == pytest.approx(
        co2.saturation_pressure(298.15), rel=1e-3
    )
    assert pure.highest_two_phase_pressure(313.15) == 0.0
    assert np.isinf(pure.boundary_margin(0.0, 313.15, 80e5))
    assert not pure.two_phase(0.0, 298.15, 100e5)


def test_mole_fraction_from_mass_fraction() -> None:
    """10 % by mass of methanol (32.042) in CO2 (44.010 g/mol): 13.24 mol % methanol."""
    expected = (0.1 / 32.042) / (0.1 / 32.042 + 0.9 / 44.010)
    assert model("methanol").modifier_mole_fraction(0.1) == pytest.approx(expected, rel=1e-4)
