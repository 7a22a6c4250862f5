"""Density and viscosity of liquid modifiers under pressure against reference equations."""

from __future__ import annotations

import numpy as np
import pytest
from chemicals.viscosity import Lucas
from CoolProp.CoolProp import PropsSI

from methodlint.fluids.liquids.density_dymond_1988 import compression
from methodlint.fluids.liquids.viscosity_lucas_1981 import pressure_factor
from methodlint.fluids.mixtures.interaction_parameters import PAIRS
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.fluids.peng_robinson_1976 import BinaryCubic, CriticalConstants, Interaction

FLUIDS = {"methanol": "Methanol", "ethanol": "Ethanol"}
TEMPERATURES = (273.15, 298.15, 313.15, 333.15, 353.15, 373.15)


@pytest.mark.parametrize("name", FLUIDS)
@pytest.mark.parametrize("T", TEMPERATURES)
def test_density_under_pressure_against_the_reference_equation(name: str, T: float) -> None:
    """de Reuck & Craven 1993 (methanol), Schroeder et al. 2014 (ethanol), through CoolProp."""
    model = model_for(name)
    assert model is not None
    for P in (5e5, 100e5, 300e5, 700e5):
        reference = PropsSI("D", "T", T, "P", P, FLUIDS[name])
        assert float(model.modifier_density(T, P)) == pytest.approx(reference, rel=0.005)
        assert float(model.density(1.0, T, P)) == pytest.approx(reference, rel=0.005)


@pytest.mark.parametrize("name", FLUIDS)
@pytest.mark.parametrize("T", TEMPERATURES)
def test_viscosity_under_pressure_against_the_reference_correlation(name: str, T: float) -> None:
    """CoolProp's correlations; the Lucas factor is low by up to 7 % at 300 bar."""
    model = model_for(name)
    assert model is not None
    for P in (5e5, 100e5, 300e5):
        reference = PropsSI("V", "T", T, "P", P, FLUIDS[name])
        assert float(model.viscosity(1.0, T, P)) == pytest.approx(reference, rel=0.08)


@pytest.mark.parametrize("name", sorted(PAIRS))
def test_lucas_1981_against_the_chemicals_library(name: str) -> None:
    c = PAIRS[name].critical
    for T in (280.0, 320.0, 370.0):
        for P in (50e5, 200e5, 600e5):
            oracle = Lucas(T, P, c.temperature, c.pressure, c.acentric_factor, 1e5, 1.0)
            assert float(pressure_factor(c, T, P, 1e5)) == pytest.approx(oracle, rel=1e-10)


# Isothermal compressibility at 25 C and 1 atm [1/Pa], handbook values from memory.
COMPRESSIBILITIES = [
    ("2-propanol", 1.13e-9),
    ("acetonitrile", 1.10e-9),
    ("tetrahydrofuran", 0.97e-9),
    ("water", 0.452e-9),
]


@pytest.mark.parametrize(("name", "kappa"), COMPRESSIBILITIES)
def test_compressibility_at_25_c_from_memory(name: str, kappa: float) -> None:
    rise = np.log(float(compression(name, 298.15, 20e5) / compression(name, 298.15, 2e5))) / 18e5
    assert rise == pytest.approx(kappa, rel=0.06)


def test_peng_robinson_1976_against_the_thermo_library() -> None:
    """Fugacity coefficients and volume; the paper rounds its two constants, hence 1e-3."""
    prmix = pytest.importorskip("thermo").PRMIX
    first, second = CriticalConstants(304.1282, 7.3773e6, 0.22394), PAIRS["methanol"].critical
    cubic = BinaryCubic(first, second)
    k, pair = 0.0583, Interaction(0.0583)
    for T, P, x2, liquid in (
        (313.15, 150e5, 0.2, True),
        (298.15, 70e5, 0.5, True),
        (333.15, 250e5, 0.05, True),
        (313.15, 30e5, 0.01, False),
    ):
        oracle = prmix(
            Tcs=[first.temperature, second.temperature],
            Pcs=[first.pressure, second.pressure],
            omegas=[first.acentric_factor, second.acentric_factor],
            kijs=[[0.0, k], [k, 0.0]],
            zs=[1.0 - x2, x2],
            T=T,
            P=P,
        )
        ln_phi = oracle.lnphis_l if liquid else oracle.lnphis_g
        volume = oracle.V_l if liquid else oracle.V_g
        computed = cubic.log_fugacity_coefficients(x2, T, P, pair, liquid=liquid)
        assert computed[0] == pytest.approx(ln_phi[0], abs=1e-3)
        assert computed[1] == pytest.approx(ln_phi[1], abs=1e-3)
        assert float(cubic.molar_volume(x2, T, P, pair, liquid=liquid)) == pytest.approx(
            volume, rel=1e-3
        )
