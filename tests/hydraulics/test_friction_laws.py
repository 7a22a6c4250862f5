"""Friction laws: ranges as data, agreement outside the transition."""

import numpy as np
import pytest

from methodlint.hydraulics import (
    friction_laminar_poiseuille,
    friction_turbulent_blasius_1913,
    friction_turbulent_swamee_jain_1976,
)
from methodlint.hydraulics.tubes import LAMINAR_BELOW, TURBULENT_ABOVE, pressure_gradient


def test_ranges_of_the_laws_leave_the_transition_to_neither():
    # limits: Tarafder, J. Chromatogr. A 2018
    assert friction_laminar_poiseuille.VALIDITY.upper == LAMINAR_BELOW == 2100.0
    assert friction_turbulent_blasius_1913.VALIDITY.lower == TURBULENT_ABOVE == 4000.0
    assert not friction_laminar_poiseuille.VALIDITY.contains(3000.0)
    assert not friction_turbulent_blasius_1913.VALIDITY.contains(3000.0)


def test_two_independent_turbulent_laws_agree_within_three_per_cent():
    re = np.geomspace(4000.0, 1.0e5, 200)
    blasius = friction_turbulent_blasius_1913.friction_factor(re)
    second = friction_turbulent_swamee_jain_1976.friction_factor(re)
    assert np.max(np.abs(second / blasius - 1.0)) < 0.03


@pytest.mark.parametrize(
    ("reynolds", "transition"), [(2099.0, False), (2101.0, True), (3999.0, True), (4001.0, False)]
)
def test_transition_reports_both_branches_and_uses_the_higher(reynolds, transition):
    bore, eta, rho = 0.15e-3, 8.0e-5, 800.0
    found = pressure_gradient(reynolds * np.pi * bore * eta / 4.0, bore, rho, eta)
    velocity = reynolds * eta / (rho * bore)
    per_factor = rho * velocity**2 / (2.0 * bore)
    laminar, turbulent = 64.0 / reynolds * per_factor, 0.3164 / reynolds**0.25 * per_factor
    assert found.transition == transition
    if transition:
        assert found.gradient == pytest.approx(max(laminar, turbulent), rel=1e-9)
        assert found.alternative == pytest.approx(min(laminar, turbulent), rel=1e-9)
    else:
        wanted = laminar if reynolds < 3000.0 else turbulent
        assert found.gradient == found.alternative == pytest.approx(wanted, rel=1e-9)


def test_no_flow_loses_nothing():
    still = pressure_gradient(0.0, 0.15e-3, 800.0, 8.0e-5)
    assert still.gradient == 0.0
    assert not still.transition
