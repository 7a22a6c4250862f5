"""Dwell plans and set shares, against arithmetic and an independent property library."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodlint.scaling.dwell import plan_dwell
from methodlint.scaling.metering import (
    flow_for_same_mass,
    mass_fraction,
    share_for_mass_fraction,
)


def plan(**changed):
    figures = {
        "hold": 0.0,
        "dwell_time": 30.0,
        "target_dwell_time": 20.0,
        "factor": 1.0,
        "hold_up_time": 40.0,
        "target_flow": 2.5e-8,
        "can_delay": False,
        **changed,
    }
    return plan_dwell(
        figures["hold"],
        figures["dwell_time"],
        figures["target_dwell_time"],
        figures["factor"],
        figures["hold_up_time"],
        figures["target_flow"],
        can_delay=figures["can_delay"],
    )


def test_hold_is_the_difference():
    """hold2 = (hold1 + V_D1/F1) s - V_D2/F2: common practice, no source."""
    found = plan(hold=12.0, factor=0.5, target_dwell_time=15.0)
    assert found.way == "hold"
    assert found.hold == pytest.approx((12.0 + 30.0) * 0.5 - 15.0)


def test_same_system_needs_nothing():
    found = plan(target_dwell_time=30.0)
    assert (found.way, found.hold, found.delay) == ("hold", 0.0, 0.0)


def test_less_than_a_tenth_of_the_hold_up_time_is_negligible():
    assert plan(target_dwell_time=33.9).way == "negligible"
    assert plan(target_dwell_time=34.0).way == "negligible"
    assert plan(target_dwell_time=34.1).way == "not possible"


def test_a_hold_does_within_a_tenth_of_the_hold_up_time_and_no_further():
    """10 s are wanted; a tenth of 40 s is 4 s (common practice, no source)."""
    wanted = plan()
    assert [wanted.is_met_by(hold) for hold in (5.9, 6.0, 14.0, 14.1)] == [False, True, True, False]


def test_delayed_injection_where_the_autosampler_can():
    found = plan(target_dwell_time=50.0, can_delay=True)
    assert (found.way, found.delay, found.hold) == ("delayed injection", 20.0, 0.0)


def test_largest_dwell_volume_would_be_exact():
    found = plan(target_dwell_time=50.0)
    exact = plan(target_dwell_time=found.largest_volume / 2.5e-8)
    assert exact.wanted == pytest.approx(0.0, abs=1e-9)


times = st.floats(0.0, 600.0)


@given(times, times, times, st.floats(0.05, 20.0))
def test_there_and_back_returns_the_hold(hold, dwell, other, factor):
    there = plan(hold=hold, dwell_time=dwell, target_dwell_time=other, factor=factor)
    if there.way == "hold":
        back = plan(hold=there.hold, dwell_time=other, target_dwell_time=dwell, factor=1.0 / factor)
        assert back.wanted == pytest.approx(hold, abs=1e-6)


@given(st.floats(0.001, 0.999), st.floats(700.0, 1000.0), st.floats(700.0, 1100.0))
def test_share_inverts_the_mass_fraction(share, liquid, carbon):
    w = mass_fraction(share, liquid, carbon)
    assert share_for_mass_fraction(w, liquid, carbon) == pytest.approx(share)


def test_head_at_ten_and_at_twenty_degrees():
    """954 and 904 kg/m3 at 150 bar (reference equation of Span and Wagner 1996, by CoolProp):
    the CO2 stream differs by about 5 %.
    """
    flow = flow_for_same_mass(0.0, 904.0, 954.0)
    assert 1.0 - flow == pytest.approx(0.052, abs=0.001)
    w = mass_fraction(0.20, 791.0, 904.0)
    share = float(share_for_mass_fraction(w, 791.0, 954.0))
    assert share == pytest.approx(0.2087, abs=0.0005)
    # Both masses agree when share and flow are corrected together.
    total = flow_for_same_mass(0.20, 904.0, 954.0)
    assert total * share == pytest.approx(0.20, rel=1e-6)
    assert total * (1.0 - share) * 954.0 == pytest.approx(0.80 * 904.0, rel=1e-6)


def test_same_pumps_change_nothing():
    assert flow_for_same_mass(0.3, 950.0, 950.0) == 1.0
