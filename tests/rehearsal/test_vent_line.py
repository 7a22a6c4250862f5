"""Gas in a tube, by hand. CO2 at 20 degC and 1 atm: 14.7 uPa s (Fenghour et al. 1998, from memory),
1.839 kg/m3 (Span and Wagner 1996)."""

from __future__ import annotations

import math

import pytest
from fluids.compressible import isothermal_gas  # type: ignore[import-untyped]

from methodlint.rehearsal.bench.vent_line import vent_loss

GRAMS_PER_MINUTE = 1e-3 / 60.0


def test_small_laminar_loss_by_hagen_and_poiseuille() -> None:
    flow = 0.5 * GRAMS_PER_MINUTE
    found = vent_loss(flow, 3.0, 4e-3)
    by_hand = 128.0 * 14.7e-6 * 3.0 * (flow / 1.839) / (math.pi * 4e-3**4)
    assert found.reynolds < 2100.0
    assert found.loss == pytest.approx(by_hand, rel=0.02)


@pytest.mark.parametrize(("flow", "bore"), [(3.0, 1.2e-3), (60.0, 6e-3), (2.0, 1e-3)])
def test_against_an_independent_isothermal_solution(flow: float, bore: float) -> None:
    """The library `fluids` solves the same flow, with the same friction factor."""
    mass = flow * GRAMS_PER_MINUTE
    found = vent_loss(mass, 5.0, bore)
    friction = 64.0 / found.reynolds
    if found.reynolds > 2100.0:
        friction = 0.3164 * found.reynolds**-0.25
    inlet = isothermal_gas(
        rho=1.839 * (101325.0 + found.loss) / 101325.0,  # at the inlet, as that library wants it
        fd=friction,
        P2=101325.0,
        L=5.0,
        D=bore,
        m=mass,
    )
    assert found.loss == pytest.approx(inlet - 101325.0, rel=0.005)


def test_gas_that_would_leave_faster_than_it_can_is_choked() -> None:
    """Speed of sound in CO2 at 20 degC: 267 m/s (handbooks, from memory); isothermal flow in a
    tube ends at that over sqrt(1.30), 234 m/s (Perry's handbook, section 6)."""
    cross_section = math.pi / 4.0 * 1e-3**2
    fast, slow = (speed * cross_section * 1.839 for speed in (240.0, 228.0))
    assert vent_loss(fast, 1.0, 1e-3).choked
    assert not vent_loss(slow, 1.0, 1e-3).choked
    assert vent_loss(fast, 1.0, 1e-3).outlet_mach == pytest.approx(240.0 / 267.0, rel=0.01)


def test_shared_lines_lose_more() -> None:
    assert vent_loss(2e-4, 3.0, 4e-3).loss > vent_loss(1e-4, 3.0, 4e-3).loss


def test_no_flow_no_loss() -> None:
    assert vent_loss(0.0, 3.0, 4e-3).loss == 0.0


@pytest.mark.parametrize(("length", "bore"), [(0.0, 1e-3), (1.0, 0.0)])
def test_a_line_has_length_and_bore(length: float, bore: float) -> None:
    with pytest.raises(ValueError, match="length and a bore"):
        vent_loss(1e-4, length, bore)
