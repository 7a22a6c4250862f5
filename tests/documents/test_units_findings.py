"""What is said about texts that are no quantity: rule, message and remedy."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodlint.documents.quantities.units import UNITS, UnitProblem, parse_quantity

FLOW = ("volume flow", "mass flow")
CONCENTRATION = ("amount concentration", "mass concentration", "share")
UNIT = "document.unit-missing-or-wrong-kind"
RANGE = "document.range-or-about"
TRAP = "document.type-trap"


def finding(text, dimension):
    with pytest.raises(UnitProblem) as caught:
        parse_quantity(text, dimension)
    return caught.value


@pytest.mark.parametrize(
    ("text", "dimension", "offers"),
    [
        (2, FLOW, ['"2 mL/min"', '"2 g/min"']),
        ("2", "volume flow", ['"2 mL/min"']),
        (150, "volume flow", ['"150 mL/min"', '"150 uL/min"']),
        (40, "temperature", ['"40 degC"']),
        (313.15, "temperature", ['"313.15 K"']),
        (150, "pressure", ['"150 bar"']),
        (20, "share", ['"20 % v/v"', '"20 % w/w"']),
    ],
)
def test_a_bare_number_is_offered_the_units_that_make_it_usual(text, dimension, offers):
    problem = finding(text, dimension)
    assert problem.rule == UNIT
    assert "has no unit" in problem.message
    assert all(offer in problem.remedy for offer in offers)


def test_a_bare_flow_of_two_is_not_taken_for_microlitres():
    assert "uL/min" not in finding(2, "volume flow").remedy


@pytest.mark.parametrize(
    ("text", "dimension", "message"),
    [
        ("40 degC", "pressure", '"40 degC" is a temperature; a pressure is expected here'),
        ("150 bar", "temperature", '"150 bar" is a pressure; a temperature is expected here'),
        ("5 min", FLOW, '"5 min" is a duration; a flow is expected here'),
        ("5 mm", "volume", '"5 mm" is a length; a volume is expected here'),
    ],
)
def test_a_unit_of_another_kind_is_named(text, dimension, message):
    problem = finding(text, dimension)
    assert (problem.rule, problem.message) == (UNIT, message)


def test_a_volume_where_a_flow_is_wanted_is_offered_per_minute():
    assert finding("1.5 mL", FLOW).remedy == 'did you mean "1.5 mL/min"?'


@pytest.mark.parametrize(
    ("text", "dimension", "meant"),
    [
        ("150 bars", "pressure", "150 bar"),
        ("150 BAR", "pressure", "150 bar"),
        ("150 br", "pressure", "150 bar"),
        ("15 Mpa", "pressure", "15 MPa"),
        ("150 bar (g)", "pressure", "150 bar(g)"),
        ("40 deg C", "temperature", "40 degC"),
        ("40 Celsius", "temperature", "40 degC"),
        ("104 °F", "temperature", "104 degF"),
        ("1.5 mL/mn", FLOW, "1.5 mL/min"),
        ("1.5 cc/min", FLOW, "1.5 mL/min"),
        ("1.5 mL/min.", FLOW, "1.5 mL/min"),
        ("3 microns", "length", "3 um"),
        ("5 min.", "time", "5 min"),
        ("5 hours", "time", "5 h"),
        ("5 mins", "time", "5 min"),
        ("5 ml", "volume", "5 mL"),
        ("5 vol%", "share", "5 % v/v"),
        ("5 % (v/v)", "share", "5 % v/v"),
        ("5 wt%", "share", "5 % w/w"),
        ("0.1 M", CONCENTRATION, "0.1 mol/L"),
        ("12 kgs", "mass", "12 kg"),
    ],
)
def test_an_unknown_unit_is_offered_the_one_that_is_meant(text, dimension, meant):
    problem = finding(text, dimension)
    assert problem.rule == UNIT
    assert problem.remedy == f'did you mean "{meant}"?'
    assert math.isfinite(parse_quantity(meant, dimension).si)


def test_an_unknown_unit_unlike_any_lists_the_usual_ones():
    problem = finding("5 parsec", "pressure")
    assert problem.remedy == "units accepted here include bar, psi, MPa"


@pytest.mark.parametrize(
    ("text", "dimension", "remedy"),
    [
        ("1,5 mL/min", FLOW, 'write "1.5 mL/min"'),
        ("0,75 % v/v", "share", 'write "0.75 % v/v"'),
        ("1,500 psi", "pressure", 'write "1.500 psi" or "1500 psi"'),
        ("1,234,567 Pa", "pressure", 'write "1234567 Pa"'),
        ("1,500.5 psi", "pressure", 'write "1500.5 psi"'),
        ("1.234,5 psi", "pressure", 'write "1234.5 psi"'),
        ("1 500 psi", "pressure", 'write "1500 psi" if that is meant'),
        ("1\u00a0500 psi", "pressure", 'write "1500 psi" if that is meant'),
        ("1\u202f500 psi", "pressure", 'write "1500 psi" if that is meant'),
        ("1'500 psi", "pressure", 'write "1500 psi" if that is meant'),
        ("1_000 bar", "pressure", 'write "1000 bar"'),
    ],
)
def test_figures_that_other_readers_take_for_another_number(text, dimension, remedy):
    # pint 0.25 reads "1,5 mL/min" as 15 and "1 500 psi" as 500: neither may pass silently.
    problem = finding(text, dimension)
    assert (problem.rule, problem.remedy) == (TRAP, remedy)


@pytest.mark.parametrize("text", ["0x1F bar", "12:30", "1:30 min", "1e999 bar", "1e-400 bar", "nan bar",
                                  ".inf", "-inf bar", "NaN", "1e308 bar", "5e-324 mbar(g)e"])  # fmt: skip
def test_numbers_that_cannot_be_computed_with(text):
    assert finding(text, "pressure").rule in (TRAP, UNIT)


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("35-40 C", "{value: 37.5 C, tolerance: 2.5 C}"),
        ("35 C - 40 C", "{value: 37.5 C, tolerance: 2.5 C}"),
        ("35 to 40 degC", "{value: 37.5 degC, tolerance: 2.5 degC}"),
        ("35–40 degC", "{value: 37.5 degC, tolerance: 2.5 degC}"),
        ("35...40 degC", "{value: 37.5 degC, tolerance: 2.5 degC}"),
        ("40-35 degC", "{value: 35 degC, tolerance: 2 degC}"),
        ("35-40", "{value: 37.5 degC, tolerance: 2.5 degC}, if degC is meant"),
        ("35-40-45 degC", "{value: 35 degC, tolerance: 2 degC}"),
        ("35 ± 2 C", "{value: 35 C, tolerance: 2 C}"),
        ("35 degC +/- 2 degC", "{value: 35 degC, tolerance: 2 degC}"),
        ("about 40 degC", "{value: 40 degC, tolerance: ...}"),
        ("ca. 40 degC", "{value: 40 degC, tolerance: ...}"),
        ("~40 degC", "{value: 40 degC, tolerance: ...}"),
        ("< 40 degC", "{value: 40 degC, tolerance: ...}"),
        ("RT", "{value: 35 degC, tolerance: 2 degC}"),
        ("r.t.", "{value: 35 degC, tolerance: 2 degC}"),
        ("room temperature", "{value: 35 degC, tolerance: 2 degC}"),
        ("Ambient", "{value: 35 degC, tolerance: 2 degC}"),
        ("40 degC ?", "{value: 35 degC, tolerance: 2 degC}"),
    ],
)
def test_ranges_and_guesses_ask_for_a_value_and_a_tolerance(text, remedy):
    problem = finding(text, "temperature")
    assert problem.rule == RANGE
    assert remedy in problem.remedy


def test_a_range_without_a_unit_keeps_its_figures():
    problem = finding("2-3", "volume flow")
    assert problem.rule == RANGE
    assert "{value: 2.5 mL/min, tolerance: 0.5 mL/min}, if mL/min is meant" in problem.remedy


@pytest.mark.parametrize("text", ["-5 degC", "-5.5 °C", "+5 degC", "1e-3 K"])
def test_a_sign_or_an_exponent_is_no_range(text):
    assert math.isfinite(parse_quantity(text, "temperature").si)


@pytest.mark.parametrize("minus", "\u2212\u2013\u2014\u2011")
def test_another_minus_sign_is_named_by_code_point(minus):
    problem = finding(f"{minus}5 degC", "temperature")
    assert (problem.rule, problem.remedy) == (UNIT, 'write "-5 degC"')
    assert f"U+{ord(minus):04X}" in problem.message


@pytest.mark.parametrize("text", ["150  bar", "150\tbar", "150\u00a0bar", "150\u2009bar"])
def test_one_ordinary_blank_at_most(text):
    assert finding(text, "pressure").remedy == 'write "150 bar"'


@pytest.mark.parametrize("text", ["TBD", "tbd", "xxx", "???", "n/a", "TODO"])
def test_what_is_left_to_be_filled_in(text):
    assert finding(text, "pressure").rule == "document.placeholder-left"


@pytest.mark.parametrize(
    "value", [True, False, None, [], [1], {}, {"a": 1}, "", "  ", object(), b"1 bar"]
)
def test_values_of_other_types_are_problems(value):
    problem = finding(value, "pressure")
    assert problem.message
    assert problem.remedy


def test_limits_of_length():
    assert finding("9" * 65 + " bar", "pressure").rule == "document.too-large"
    assert finding("0" * 63 + "1", "pressure").rule == UNIT
    assert "201 characters" in finding("1 bar" + "x" * 196, "pressure").message


def test_below_absolute_zero():
    assert finding("-273.16 degC", "temperature").rule == "document.value-implausible"
    assert finding("-273.15 degC", "temperature").rule == "document.value-implausible"
    assert finding("0 K", "temperature").rule == "document.value-implausible"
    assert finding("-1 bar(a)", "pressure").rule == "document.value-implausible"


def test_hidden_characters_are_shown_by_code_point():
    problem = finding("150 bar\u202e", "pressure")
    assert "\u202e" not in problem.message + problem.remedy
    assert "\\u202e" in problem.message


def test_minus_zero_is_zero():
    assert math.copysign(1.0, parse_quantity("-0 bar", "pressure").si) == 1.0


@settings(max_examples=400)
@given(
    st.one_of(
        st.text(max_size=60),
        st.text("0123456789.,+-eE_:' barmLin/%gK°C~±()\u00b5\u2212xX", max_size=30),
        st.floats(),
        st.integers(),
        st.dictionaries(st.sampled_from(["value", "tolerance", "x"]), st.text(max_size=9)),
    ),
    st.sampled_from([*UNITS, FLOW, CONCENTRATION]),
)
def test_any_value_gives_a_finite_quantity_or_a_problem_in_words(value, dimension):
    try:
        quantity = parse_quantity(value, dimension)
    except UnitProblem as caught:
        problem = caught
    else:
        assert math.isfinite(quantity.si)
        return
    assert problem.rule.startswith("document.")
    assert problem.message.isprintable()
    assert problem.remedy.isprintable()
