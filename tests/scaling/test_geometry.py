"""Scaling formulas against the worked example of USP <621> and plain arithmetic."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodlint.scaling.geometry import (
    Bed,
    flow_ratio,
    length_span,
    plate_ratio,
    time_ratio,
    volume_ratio,
)
from methodlint.scaling.rounding import at_most, rounded_pressure, significant

# Worked example of the harmonised chapter USP <621> (from memory, arithmetic repeated by hand):
# 150 x 4.6 mm, 5 um, 2.0 mL/min -> 100 x 2.1 mm, 3 um.
CHAPTER = Bed(0.150, 0.0046, 5e-6), Bed(0.100, 0.0021, 3e-6)

# 4.6 x 250 mm, 5 um -> 3.0 x 150 mm, 3 um: common practice, no source.
USUAL = Bed(0.250, 0.0046, 5e-6), Bed(0.150, 0.0030, 3e-6)


def test_chapter_length_to_particle():
    """30000 -> 33333, +11 %; from memory."""
    assert CHAPTER[0].length_to_particle == pytest.approx(30000.0)
    assert CHAPTER[1].length_to_particle == pytest.approx(33333.3, abs=0.1)
    assert plate_ratio(*CHAPTER) == pytest.approx(1.11, abs=0.005)


def test_chapter_flow():
    """2.0 -> 0.695 mL/min (printed as 0.7); from memory."""
    assert 2.0 * flow_ratio(*CHAPTER) == pytest.approx(0.695, abs=0.0005)


def test_chapter_gradient():
    """Factor 0.397 with 0.7 mL/min, printed as 0.4: 3, 13, 16 min -> 1.2, 5.2, 6.4; from memory."""
    factor = time_ratio(*CHAPTER, 0.7 / 2.0)
    assert factor == pytest.approx(0.397, abs=0.0005)
    assert [round(t * round(factor, 1), 1) for t in (3.0, 13.0, 16.0)] == [1.2, 5.2, 6.4]


def test_chapter_injection():
    """20 -> 2.78 uL; from memory."""
    assert 20.0 * volume_ratio(*CHAPTER) == pytest.approx(2.78, abs=0.005)


def test_bore_alone():
    """4.6 -> 2.1 mm at 1.0 mL/min: 0.208 mL/min; plain geometry, seen in a third-party guide."""
    two = Bed(0.150, 0.0021, 5e-6)
    assert flow_ratio(CHAPTER[0], two) == pytest.approx(0.208, abs=0.0005)


def test_usual_transfer():
    """3.0 -> 2.13 mL/min, times x 0.360, 10 -> 2.6 uL (common practice, no source)."""
    assert 3.0 * flow_ratio(*USUAL) == pytest.approx(2.13, abs=0.005)
    assert time_ratio(*USUAL, 2.13 / 3.0) == pytest.approx(0.360, abs=0.001)
    assert 10.0 * volume_ratio(*USUAL) == pytest.approx(2.6, abs=0.05)


def test_porosity_counts_only_when_asked():
    """0.52 against 0.65 (from memory): a superficially porous column holds a fifth less."""
    shells = Bed(0.250, 0.0046, 5e-6, 0.52)
    assert volume_ratio(USUAL[0], shells) == 1.0
    assert volume_ratio(USUAL[0], shells, hold_up=True) == pytest.approx(0.8)


def test_lengths_that_pass():
    """-25 to +50 % of L/dp (USP <621>, secondary quotations) with 3 um: 112.5 to 225 mm."""
    low, high = length_span(USUAL[0], 3e-6, 0.75, 1.5)
    assert (low, high) == pytest.approx((0.1125, 0.225))


lengths = st.floats(0.03, 0.30)
bores = st.floats(1e-3, 30e-3)
particles = st.floats(1.5e-6, 20e-6)
porosities = st.floats(0.4, 0.8)
beds = st.builds(Bed, lengths, bores, particles, porosities)


@given(beds, beds)
def test_there_and_back_is_the_start(one, two):
    for ratio in (flow_ratio, volume_ratio, plate_ratio):
        assert ratio(one, two) * ratio(two, one) == pytest.approx(1.0)
    flow = flow_ratio(one, two)
    assert time_ratio(one, two, flow) * time_ratio(two, one, 1.0 / flow) == pytest.approx(1.0)


@given(beds, beds)
def test_invariants_are_kept(one, two):
    """Reduced velocity u dp, and column volumes per time."""
    flow = flow_ratio(one, two)
    velocity = flow * (one.inner_diameter / two.inner_diameter) ** 2
    assert velocity * two.particle_size / one.particle_size == pytest.approx(1.0)
    volumes = flow * time_ratio(one, two, flow) / volume_ratio(one, two)
    assert volumes == pytest.approx(1.0)


@given(st.floats(1e-9, 1e9), st.integers(1, 6))
def test_significant_digits(value, digits):
    assert significant(value, digits) == pytest.approx(value, rel=0.51 * 10.0 ** (1 - digits))


@given(st.floats(1e-6, 1e6))
def test_at_most_is_never_above(value):
    found = at_most(value)
    assert found <= value * (1.0 + 1e-9)
    assert found >= 0.9 * value


@given(st.floats(80e5, 300e5), st.floats(80e5, 300e5))
def test_rounded_pressure_never_falls_below_its_floor(pressure, floor):
    found = rounded_pressure(max(pressure, floor), 1e5, 1e-8, floor)
    assert found >= floor - 1.0
    assert math.isclose(found / 1e5, round(found / 1e5), abs_tol=1e-6)
