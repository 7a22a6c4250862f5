"""`safety.cylinder-too-hot`: pressure of the fill on the warmest day against the weakest part."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.cylinder-too-hot"


def _hot(highest: str, fill: str = "0.75 g/mL", hose: str = "140 bar") -> str:
    return (
        f"kind: supply\nstore_temperature: {{lowest: 10 degC, highest: {highest} degC}}\n"
        f"filling_ratio: {fill}\nrated_parts: [{{part: hose, pressure_rating: {hose}}}]\n"
        "cylinder_relief: null\n"
    )


def test_silent_below_50_degrees_with_every_part_of_200_bar() -> None:
    """175 bar at 50 degC and 0.75 g/mL (Span and Wagner 1996, CoolProp 8.0.0)."""
    assert findings(_hot("49.9", hose="200 bar"), RULE) == []


def test_silent_with_the_fill_of_68_per_cent() -> None:
    """49 CFR 173.304a: 68 % of the water capacity (from memory); 126 bar at 45 degC."""
    assert findings(f"{_hot('45', fill='0.68 g/mL')}full_mass: 34 kg\n", RULE) == []


@pytest.mark.parametrize("full", ["37.5 kg", "38 kg", "34 kg", "null"])
def test_silent_with_a_mass_that_agrees_but_for_rounding_or_is_less(full: str) -> None:
    """92 bar at 30 degC and 0.75 g/mL, against 120 bar; 38 kg in 50 L make 0.76."""
    assert findings(f"{_hot('30', hose='120 bar')}full_mass: {full}\n", RULE) == []


def test_silent_with_the_mass_of_two_cylinders() -> None:
    two = "cylinders: 2\nfull_mass: 75 kg\nnet_mass: 62 kg\n"
    assert findings(_hot("30", hose="120 bar") + two, RULE) == []


def test_silent_with_a_mass_that_nothing_could_press_into_the_cylinder() -> None:
    """85 kg in 50 L make 1.7 g/mL; liquid CO2 at -20 degC has 1.03. A slip, said elsewhere."""
    assert findings(f"{_hot('30', hose='120 bar')}net_mass: 85 kg\n", RULE) == []


def test_silent_for_a_bulk_tank() -> None:
    assert findings(f"{_hot('45')}withdrawal: bulk", RULE) == []


@pytest.mark.parametrize(
    ("highest", "pressure", "hose"),
    [("40", "133 bar", "130 bar"), ("45", "154 bar", "140 bar"), ("50", "175 bar", "140 bar")],
)
def test_stop_with_the_weakest_part(highest: str, pressure: str, hose: str) -> None:
    """133, 154 and 175 bar at 0.75 g/mL (Span and Wagner 1996, CoolProp 8.0.0)."""
    [finding] = findings(_hot(highest, hose=hose), RULE)
    assert finding.grade == "stop"
    assert f"is at {pressure}" in finding.message
    assert f"the hose, withstands {hose}" in finding.message
    assert finding.cautions == ("pressure", "asphyxiation")


@pytest.mark.parametrize(
    "masses",
    [
        "net_mass: 37.5 kg\nfull_mass: 37.5 kg",
        "net_mass: 10 kg\nfull_mass: 37.5 kg",
        "net_mass: 37.5 kg\nfull_mass: null",
    ],
)
def test_the_real_filling_counts_not_the_stated_one(masses: str) -> None:
    """37.5 kg in 40 L make 0.9375 g/mL: 278 bar at 30 degC (Span and Wagner, CoolProp 8.0.0)."""
    [finding] = findings(f"{_hot('30', hose='250 bar')}water_capacity: 40 L\n{masses}", RULE)
    assert finding.grade == "stop"
    assert "is at 278 bar" in finding.message
    said = "mass and water capacity make 0.938 g/mL, the card states 0.75 g/mL"
    assert said in finding.message
    assert finding.at.path == ("store_temperature",)
    assert "send it back" in finding.remedy
    assert "exchange" not in finding.remedy


def test_stop_by_a_mass_that_is_permitted_but_above_the_stated_ratio() -> None:
    """37.5 kg in 50 L: 154 bar at 45 degC and 0.75 g/mL (Span and Wagner 1996)."""
    [finding] = findings(_hot("45", fill="0.68 g/mL"), RULE)
    assert "is at 154 bar" in finding.message
    assert "make 0.75 g/mL, the card states 0.68 g/mL" in finding.message
    assert "keep the store at 40 degC or below" in finding.remedy


def test_temperature_at_which_it_is_reached() -> None:
    """0.75 g/mL: 133 bar at 40 degC (Span and Wagner 1996, CoolProp 8.0.0)."""
    [finding] = findings(_hot("45", hose="133 bar"), RULE)
    assert "reached at 39.9 degC" in finding.message or "reached at 40 degC" in finding.message


def test_disc_of_the_cylinder_counts_as_a_part() -> None:
    text = _hot("45", hose="250 bar").replace("cylinder_relief: null", "cylinder_relief: 150 bar")
    [finding] = findings(text, RULE)
    assert "relief of the cylinder" in finding.message


def test_upper_end_of_a_tolerance_counts() -> None:
    text = _hot("45").replace(
        "{lowest: 10 degC, highest: 45 degC}", "{value: 38 degC, tolerance: 5 K}"
    )
    [finding] = findings(text, RULE)
    assert "43 degC" in finding.message


def test_remedy_shades_the_store_or_names_the_rating() -> None:
    [finding] = findings(_hot("45"), RULE)
    assert "no single change" not in finding.remedy
    assert "keep the store at 40 degC or below" in finding.remedy
    assert "155 bar or more" in finding.remedy


def test_hot_store_without_liquid_lies_beneath() -> None:
    report = judged(_hot("45"), RULE, "supply.no-liquid-in-cylinder")
    assert [finding.rule for finding in report.findings] == [RULE]
    assert [child.rule for child in report.findings[0].because] == ["supply.no-liquid-in-cylinder"]


@pytest.mark.parametrize(
    ("text", "missing"),
    [
        (_hot("45").replace("[{part: hose, pressure_rating: 140 bar}]", "[]"), "rated_parts"),
        (
            _hot("45", fill="null") + "full_mass: null\nnet_mass: null\n",
            "filling_ratio",
        ),
        ("kind: supply\nstore_temperature: null", "store_temperature"),
    ],
)
def test_not_checked(text: str, missing: str) -> None:
    report = judged(text, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [(f"supply.{missing}",)]
