"""`supply.overfilled`: mass over water capacity against 0.76 kg/L (ADR P200, from memory)."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "supply.overfilled"


@pytest.mark.parametrize(
    "supply",
    [
        pytest.param("net_mass: 37.5 kg", id="0.75 kg/L"),
        pytest.param("net_mass: 38 kg\nfull_mass: 38 kg", id="0.76 kg/L"),
        pytest.param("full_mass: 39.5 kg", id="0.79 kg/L, a capacity may be rounded"),
        pytest.param("water_capacity: 26.8 L\nnet_mass: 20 kg\nfull_mass: 20 kg", id="1.34 L/kg"),
        pytest.param("water_capacity: null\nnet_mass: 85 kg", id="no capacity"),
        pytest.param("net_mass: null\nfull_mass: null", id="no mass"),
        pytest.param("cylinders: 12\nnet_mass: 400 kg\nfull_mass: 450 kg", id="bundle of 12"),
        pytest.param(
            "water_capacity: 600 L\nnet_mass: 400 kg\nfull_mass: 450 kg", id="bundle as one"
        ),
        pytest.param(
            "withdrawal: bulk\nwater_capacity: 1000 L\nnet_mass: 900 kg\nfull_mass: 950 kg",
            id="bulk tank",
        ),
        pytest.param(
            "store_temperature: -20 degC\nwater_capacity: 230 L\nnet_mass: 200 kg\n"
            "full_mass: 220 kg",
            id="insulated vessel that is kept cold",
        ),
        pytest.param("used_since_weighed: 4 kg", id="partly used"),
        pytest.param("test_pressure: 250 bar", id="0.75 kg/L, tested at 250 bar"),
        pytest.param(
            "test_pressure: 190 bar\nnet_mass: 31 kg\nfull_mass: 34 kg\nfilling_ratio: 0.68 g/mL",
            id="0.68 kg/L, tested at 190 bar",
        ),
        pytest.param("withdrawal: vapour\ndip_tube: false", id="vapour cylinder"),
    ],
)
def test_silent(supply: str) -> None:
    report = judged(f"kind: supply\n{supply}", RULE)
    assert report.findings == []
    assert report.not_checked == []


@pytest.mark.parametrize(
    ("supply", "field", "says"),
    [
        (
            "water_capacity: 40 L\nnet_mass: 37.5 kg",
            "full_mass",
            "'full_mass' (37.5 kg) in 40 L makes 0.938 g/mL, 23 % more than the 0.76 g/mL",
        ),
        (
            "water_capacity: 40 L\nnet_mass: 37.5 kg\nfull_mass: null",
            "net_mass",
            "'net_mass' (37.5 kg) in 40 L makes 0.938 g/mL",
        ),
        (
            "cylinders: 2\nnet_mass: 62 kg\nfull_mass: 95 kg",
            "full_mass",
            "'full_mass' (95 kg) in 100 L of 2 cylinders makes 0.95 g/mL",
        ),
    ],
)
def test_overfilled(supply: str, field: str, says: str) -> None:
    [finding] = findings(f"kind: supply\n{supply}", RULE)
    assert finding.grade == "fault"
    assert finding.at.path == (field,)
    assert says in finding.message
    assert "though 'filling_ratio' says 0.75 g/mL: it is overfilled" in finding.message
    assert "keep the cylinder cool and send it back" in finding.remedy
    assert finding.found is not None
    assert finding.limit is not None
    assert finding.limit.value == pytest.approx(0.76)
    assert finding.also[0].path == ("water_capacity",)


def test_caution_where_a_rounded_capacity_may_explain_it() -> None:
    """41 kg in 50 L make 0.82 g/mL, 8 % above 0.76."""
    [finding] = findings("kind: supply\nfull_mass: 41 kg", RULE)
    assert finding.grade == "caution"
    assert "8 % more" in finding.message


@pytest.mark.parametrize("mass", ["85 kg", "310 kg"])
@pytest.mark.parametrize("full", ["null", "37.5 kg"])
def test_a_mass_that_no_filling_reaches(mass: str, full: str) -> None:
    """Liquid CO2 at -20 degC: 1.032 g/mL (Span and Wagner 1996)."""
    [finding] = findings(f"kind: supply\nnet_mass: {mass}\nfull_mass: {full}", RULE)
    assert finding.grade == "fault"
    assert finding.at.path == ("net_mass",)
    assert f"'net_mass' ({mass}) in 50 L makes" in finding.message
    assert "more than liquid CO2 weighs (1.03 g/mL at -20 degC)" in finding.message
    assert "weight of cylinder and CO2 together" in finding.message
    assert "tare" in finding.remedy


def test_both_masses_are_pointed_at_in_one_finding() -> None:
    [finding] = findings("kind: supply\nnet_mass: 85 kg\nfull_mass: 90 kg", RULE)
    assert finding.at.path == ("full_mass",)
    assert [at.path for at in finding.also] == [("water_capacity",), ("net_mass",)]


def test_liquid_of_the_limit() -> None:
    """Saturated liquid at -20 degC by the tool's own equation agrees with the constant."""
    from methodlint.documents.contents.cylinder_fill import LIQUID
    from methodlint.fluids.co2 import properties as co2

    assert float(co2.saturated_liquid_density(253.15)) == pytest.approx(LIQUID, rel=2e-3)


@pytest.mark.parametrize(
    ("supply", "limit"),
    [
        ("test_pressure: 190 bar", 0.68),  # 37.5 kg in 50 L are 0.75 kg/L
        ("test_pressure: 250 bar\nfull_mass: 38.5 kg", 0.76),  # 0.77 kg/L, and no slack
    ],
)
def test_a_stamped_test_pressure_leaves_no_slack(supply: str, limit: float) -> None:
    """0.68 kg/L at 190 bar, 0.76 at 250 bar: ADR P200, UN 1013 (unverified)."""
    (found,) = findings(f"kind: supply\n{supply}", RULE)
    assert found.grade == "fault"
    assert found.limit is not None and found.limit.value == pytest.approx(limit)
    assert "(unverified)" in found.message
