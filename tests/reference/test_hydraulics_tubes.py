"""Tubes against the `fluids` library and published figures."""

import math

import fluids
import numpy as np
import pytest

from methodlint.hydraulics import (
    friction_laminar_poiseuille,
    friction_turbulent_blasius_1913,
    friction_turbulent_swamee_jain_1976,
)
from methodlint.hydraulics.tubes import pressure_gradient


@pytest.mark.parametrize("reynolds", [4000.0, 9000.0, 3.0e4, 1.0e5])
def test_turbulent_laws_are_those_of_the_library(reynolds):
    assert friction_turbulent_blasius_1913.friction_factor(reynolds) == pytest.approx(
        fluids.friction.Blasius(reynolds), rel=1e-6
    )
    assert friction_turbulent_swamee_jain_1976.friction_factor(reynolds) == pytest.approx(
        fluids.friction.Swamee_Jain_1976(reynolds, 0.0), rel=1e-5
    )
    assert friction_turbulent_swamee_jain_1976.friction_factor(reynolds, 1e-3) == pytest.approx(
        fluids.friction.Swamee_Jain_1976(reynolds, 1e-3), rel=1e-5
    )


@pytest.mark.parametrize("reynolds", [0.5, 100.0, 2000.0])
def test_laminar_law_is_that_of_the_library(reynolds):
    assert friction_laminar_poiseuille.friction_factor(reynolds) == pytest.approx(
        fluids.friction_factor(Re=reynolds), rel=1e-12
    )


@pytest.mark.parametrize("reynolds", [5000.0, 9000.0, 3.0e4])
def test_blasius_stays_near_the_implicit_equation_of_colebrook(reynolds):
    # Colebrook for a smooth tube, solved by the library (Clamond 2009)
    assert friction_turbulent_blasius_1913.friction_factor(reynolds) == pytest.approx(
        fluids.friction.Clamond(reynolds, 0.0), rel=0.03
    )


@pytest.mark.parametrize("mass_flow", [1.0e-6, 1.0e-5, 6.0e-5])
def test_drop_of_a_tube_is_that_of_the_library(mass_flow):
    length, bore, rho, eta = 0.6, 0.15e-3, 850.0, 9.0e-5
    velocity = mass_flow / (rho * math.pi / 4.0 * bore**2)
    re = fluids.Reynolds(V=velocity, D=bore, rho=rho, mu=eta)
    factor = 64.0 / re if re < 2100.0 else fluids.friction.Blasius(re)
    assert not 2100.0 < re < 4000.0
    wanted = fluids.dP_from_K(fluids.K_from_f(fd=factor, L=length, D=bore), rho=rho, V=velocity)
    found = pressure_gradient(mass_flow, bore, rho, eta)
    assert found.reynolds == pytest.approx(re, rel=1e-12)
    assert found.gradient * length == pytest.approx(wanted, rel=1e-6)


def test_hagen_poiseuille_in_its_textbook_form():
    # dP = 128 eta L Q / (pi d^4), any textbook of fluid mechanics
    rho, eta, bore, flow = 791.0, 0.55e-3, 0.15e-3, 1.0e-6 / 60.0
    found = pressure_gradient(rho * flow, bore, rho, eta)
    assert np.isclose(found.gradient, 128.0 * eta * flow / (math.pi * bore**4), rtol=1e-12)
