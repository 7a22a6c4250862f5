"""Packed beds against the `fluids` library and the reference values of column hydraulics."""

import math

import fluids.packed_bed
import pytest

from methodlint.hydraulics.columns import (
    DEFAULT_EXTERNAL_POROSITY,
    DEFAULT_FLOW_RESISTANCE,
    TOTAL_POROSITY_POROUS,
    TOTAL_POROSITY_SUPERFICIALLY_POROUS,
    ergun_gradient,
    inertial_share,
    kozeny_carman_resistance,
    superficial_flow_resistance,
)


@pytest.mark.parametrize("velocity", [1.0e-4, 5.0e-3, 0.5])
@pytest.mark.parametrize("porosity", [0.36, 0.40])
def test_ergun_is_that_of_the_library(velocity, porosity):
    dp, rho, eta, length = 5.0e-6, 850.0, 8.0e-5, 0.25
    wanted = fluids.packed_bed.Ergun(
        dp=dp, voidage=porosity, vs=velocity, rho=rho, mu=eta, L=length
    )
    resistance = kozeny_carman_resistance(porosity, constant=150.0)
    found = ergun_gradient(velocity, dp, resistance, porosity, rho, eta) * length
    assert found == pytest.approx(wanted, rel=1e-9)


def test_carman_constant_gives_the_libraries_viscous_drop():
    # Carman 1937: f = 180/Re_m + 2.87 Re_m^-0.1, Re_m = rho u dp / (eta (1-eps)); at Re_m of 1e-4
    # the second part is below 0.01 % of the first
    dp, rho, eta, length, porosity = 5.0e-6, 850.0, 8.0e-5, 0.25, 0.40
    velocity = 1.0e-4 * eta * (1.0 - porosity) / (rho * dp)
    wanted = fluids.packed_bed.Carman(
        dp=dp, voidage=porosity, vs=velocity, rho=rho, mu=eta, L=length
    )
    viscous = kozeny_carman_resistance(porosity) * eta * velocity / dp**2 * length
    assert viscous == pytest.approx(wanted, rel=1e-3)


def test_flow_resistance_of_the_default_lies_between_the_two_constants():
    # 150: 1051-844, 180: 1261-1012 for porosity 0.38-0.40, computed by hand from the formula;
    # constants: Ergun 1952 (150), Carman 1937 as quoted by Quinn 2019 (180)
    assert kozeny_carman_resistance(0.38, 150.0) == pytest.approx(1051.0, abs=0.5)
    assert kozeny_carman_resistance(0.40, 150.0) == pytest.approx(844.0, abs=0.5)
    assert kozeny_carman_resistance(0.38, 180.0) == pytest.approx(1261.0, abs=0.5)
    assert kozeny_carman_resistance(0.40, 180.0) == pytest.approx(1012.0, abs=1.0)
    assert 844.0 < DEFAULT_FLOW_RESISTANCE < 1261.0


@pytest.mark.parametrize(
    ("length", "bore", "flow_ml_min", "viscosity", "bar"),
    [
        # computed with Kozeny-Carman 180 and porosity 0.40 by an independent calculation
        (0.250, 4.6e-3, 3.0, 0.08e-3, 24.4),
        (0.150, 4.6e-3, 1.0, 0.89e-3, 54.2),
    ],
)
def test_worked_drops_of_five_micrometre_columns(length, bore, flow_ml_min, viscosity, bar):
    velocity = flow_ml_min * 1e-6 / 60.0 / (math.pi / 4.0 * bore**2)
    resistance = kozeny_carman_resistance(0.40, constant=180.0)
    drop = ergun_gradient(velocity, 5.0e-6, resistance, 0.40, 900.0, viscosity) * length
    assert drop / 1e5 == pytest.approx(bar, rel=0.01)


def test_porosities_lie_in_the_spans_of_the_literature():
    # from memory: Guiochon et al. (external), general literature (total)
    assert 0.36 <= DEFAULT_EXTERNAL_POROSITY <= 0.42
    assert 0.60 <= TOTAL_POROSITY_POROUS <= 0.70
    assert 0.50 <= TOTAL_POROSITY_SUPERFICIALLY_POROUS <= 0.55


def test_hold_up_based_resistance_is_converted_by_the_definition():
    # phi_t0 = dP t0 dp^2 / (eta L^2): Bristow and Knox 1977 (from memory)
    length, bore, dp, eta, porosity, phi = 0.15, 3.0e-3, 3.0e-6, 9.0e-5, 0.65, 1000.0
    flow = 1.5e-6 / 60.0
    area = math.pi / 4.0 * bore**2
    drop = phi * eta * (flow / area) * length / dp**2
    hold_up_time = porosity * area * length / flow
    phi_t0 = drop * hold_up_time * dp**2 / (eta * length**2)
    assert superficial_flow_resistance(phi_t0, "t0", porosity) == pytest.approx(phi, rel=1e-12)
    assert superficial_flow_resistance(phi, "superficial", porosity) == phi
    # published 500-1000 on the t0 basis become 770-1540 superficially
    assert superficial_flow_resistance(500.0, "t0", 0.65) == pytest.approx(769.2, abs=0.1)
    with pytest.raises(ValueError, match="basis"):
        superficial_flow_resistance(500.0, "interstitial", 0.65)


def test_inertia_is_negligible_on_analytical_particles_and_not_on_preparative_ones():
    assert inertial_share(0.15, 0.38, 1000.0) < 0.01
    assert inertial_share(0.5, 0.38, 1000.0) == pytest.approx(0.01, rel=0.05)
    assert inertial_share(2.0, 0.38, 1000.0) > 0.03
