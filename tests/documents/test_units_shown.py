"""Values as messages print them, and the spans of usual values."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodlint.documents.quantities.format import number, show
from methodlint.documents.quantities.plausibility import (
    SPANS,
    other_pressure_readings,
    plausible_span,
    slip,
)
from methodlint.documents.quantities.units import UNITS, parse_quantity


@pytest.mark.parametrize(
    ("written", "dimension", "shown"),
    [
        ("105 bar", "pressure", "105 bar"),
        ("10.52 MPa", "pressure", "105 bar"),
        ("1000 psi", "pressure", "68.9 bar"),
        ("70 bar", "pressure", "70 bar"),
        ("0.25 bar", "pressure", "0.25 bar"),
        ("40 degC", "temperature", "40 degC"),
        ("-0.01 degC", "temperature", "0 degC"),
        ("1.5 mL/min", "volume flow", "1.5 mL/min"),
        ("1.4999999 mL/min", "volume flow", "1.5 mL/min"),
        ("5 uL", "volume", "5 uL"),
        ("999.9 uL", "volume", "1 mL"),
        ("50 L", "volume", "50 L"),
        ("250 mm", "length", "250 mm"),
        ("1.7 um", "length", "1.7 um"),
        ("90 min", "time", "90 min"),
        ("12 h", "time", "12 h"),
        ("30 s", "time", "30 s"),
        ("12.5 kg", "mass", "12.5 kg"),
        ("20 % v/v", "share", "20 %"),
        ("0 mL", "volume", "0 mL"),
        ("0 g/min", "mass flow", "0 g/min"),
    ],
)
def test_values_read_well(written, dimension, shown):
    assert show(parse_quantity(written, dimension).si, dimension) == shown


def test_unit_and_digits_can_be_chosen():
    assert show(150e5, "pressure", "psi") == "2176 psi"
    assert show(150e5, "pressure", "MPa", 2) == "15 MPa"
    assert show(0.2, "share", "% v/v") == "20 % v/v"
    assert show(313.15, "temperature", "K") == "313 K"
    assert show(313.15, "temperature", "K", 5) == "313.15 K"
    with pytest.raises(KeyError):
        show(1.0, "pressure", "furlong")


def test_what_is_not_finite_is_not_known():
    assert show(float("nan"), "pressure") == "not known"
    assert show(float("-inf"), "length") == "not known"
    assert number(float("inf")) == "not known"


@pytest.mark.parametrize("dimension", sorted(UNITS))
def test_nothing_is_shown_as_zero_of_a_unit(dimension):
    figure, _, unit = show(0.0, dimension).partition(" ")
    assert float(figure) == pytest.approx(-273.15 if dimension == "temperature" else 0.0, abs=0.1)
    assert unit in UNITS[dimension]


@settings(max_examples=300)
@given(st.floats(), st.sampled_from(sorted(UNITS)))
def test_every_value_is_shown_without_nan_and_close_to_what_it_is(si, dimension):
    text = show(si, dimension)
    assert "nan" not in text
    assert "inf" not in text
    assert "-0 " not in text


@settings(max_examples=200)
@given(st.floats(min_value=1e-6, max_value=1e8))
def test_a_number_is_shown_to_half_a_percent_and_never_with_an_exponent(figure):
    text = number(figure)
    assert "e" not in text
    assert float(text) == pytest.approx(figure, rel=5.1e-3)


def test_every_dimension_has_a_span_of_its_own_dimension():
    for dimension in UNITS:
        span = plausible_span(dimension)
        assert span is not None
        assert span.dimension == dimension
    assert all(span.lower < span.upper for span in SPANS.values())
    assert plausible_span("shoe size") is None


@pytest.mark.parametrize(
    ("quantity", "written", "holds"),
    [
        ("temperature", "-10 degC", True),
        ("temperature", "150 degC", True),
        ("temperature", "151 degC", False),
        ("flow", "0.01 mL/min", True),
        ("flow", "150 mL/min", True),
        ("flow", "0.009 mL/min", False),
        ("wavelength", "190 nm", True),
        ("wavelength", "901 nm", False),
        ("inner diameter", "4.6 mm", True),
        ("particle size", "5 mm", False),
    ],
)
def test_ends_of_spans(quantity, written, holds):
    span = SPANS[quantity]
    assert span.holds(parse_quantity(written, span.dimension).si) is holds


def test_slips():
    assert (
        slip(parse_quantity("5 mm", "length").si, SPANS["particle size"]) == "1000 times too large"
    )
    assert (
        slip(parse_quantity("1500 mL/min", "volume flow").si, SPANS["flow"])
        == "ten times too large"
    )
    assert slip(parse_quantity("25 nm", "length").si, SPANS["wavelength"]) == "ten times too small"
    assert slip(parse_quantity("5 um", "length").si, SPANS["particle size"]) is None
    assert slip(600.0, SPANS["temperature"]) is None


@pytest.mark.parametrize(
    ("written", "quantity", "said"),
    [
        ("3.0 mL/min", "flow", None),
        # Ten times 3 uL/min would be usual as well, but nobody slips from mL to uL by ten.
        ("3.0 uL/min", "flow", "1000 times too small"),
        ("0.001 mL/min", "flow", "ten times too small"),
        ("1500 mL/min", "flow", "ten times too large"),
        ("2 nL", "injection volume", "1000 times too small"),
        ("254 um", "wavelength", "1000 times too large"),
        ("254 mm", "wavelength", None),
    ],
)
def test_a_slipped_prefix_is_guessed_before_a_slipped_point(written, quantity, said):
    value = parse_quantity(written, SPANS[quantity].dimension)
    assert slip(value.si, SPANS[quantity], value.unit) == said


@pytest.mark.parametrize(
    ("written", "readings"),
    [
        ("2000 bar", {"psi": 137.9}),  # 2000 x 0.0689476 bar, NIST SP 811
        ("15 bar", {"MPa": 150.0}),
        ("150 bar", {}),
        ("60 bar", {}),
        ("1200 bar", {}),
        ("12000 psi", {}),
        ("15 psi", {"MPa": 150.0}),
    ],
)
def test_pressures_that_another_unit_would_make_usual(written, readings):
    quantity = parse_quantity(written, "pressure")
    found = dict(other_pressure_readings(quantity.si, quantity.unit))
    assert {unit: round(value / 1e5, 1) for unit, value in found.items()} == readings
