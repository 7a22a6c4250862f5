"""`supply.no-liquid-in-cylinder`: the store against 31.0 degC, the fill against vapour alone."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "supply.no-liquid-in-cylinder"
HOT = "kind: supply\nstore_temperature: {value: 34 degC, tolerance: 1 K}\nline_temperature: null\n"
WEAK = "---\nkind: instrument\nco2_pump: {chiller_capacity: 1 W}\n"


def test_silent_in_a_cool_store() -> None:
    assert findings("kind: supply\nstore_temperature: 29 degC", RULE) == []


def test_silent_for_vapour_withdrawal() -> None:
    assert findings(f"{HOT}withdrawal: vapour\n{WEAK}", RULE) == []


def test_silent_for_a_bulk_tank() -> None:
    assert findings(f"{HOT}withdrawal: bulk\n{WEAK}", RULE) == []


def test_silent_with_liquid_left() -> None:
    """50 L hold 7.8 kg of vapour at 15 degC (160 kg/m3, Span and Wagner 1996)."""
    assert findings("kind: supply\nnet_mass: 9 kg", RULE) == []


def test_hot_store_is_a_fault_with_the_pressure_of_the_fill() -> None:
    """Limit 31.0 degC: critical temperature 304.13 K (Span and Wagner 1996)."""
    [finding] = findings(HOT + WEAK, RULE)
    assert finding.grade == "fault"
    assert "above 31.0 degC there is no liquid CO2" in finding.message
    assert "620 kg/m3" in finding.message
    assert finding.at.path == ("store_temperature",)


def test_only_caution_with_a_cooler_that_is_rated_for_the_heat() -> None:
    """170 kJ/kg at 1.4 g/min are 4 W; the sound lab's cooler has 40 W."""
    [finding] = findings(HOT, RULE)
    assert finding.grade == "caution"
    assert "cooler is rated for the heat" in finding.message


def test_caution_when_the_limit_lies_within_the_tolerance() -> None:
    text = "kind: supply\nstore_temperature: {value: 30.5 degC, tolerance: 1 K}\n"
    [finding] = findings(text + WEAK, RULE)
    assert (finding.grade, finding.possible) == ("caution", True)


def test_gas_alone_is_a_fault_at_the_weight() -> None:
    """5 kg are less than the 8.0 kg of vapour at 15 degC (Span and Wagner 1996)."""
    [finding] = findings("kind: supply\nnet_mass: 5 kg", RULE)
    assert finding.grade == "fault"
    assert finding.at.path == ("net_mass",)
    assert "gas alone" in finding.message
    assert "change the cylinder" in finding.remedy


def test_not_checked_without_store_temperature() -> None:
    report = judged("kind: supply\nstore_temperature: null", RULE)
    assert [item.missing for item in report.not_checked] == [("supply.store_temperature",)]


def test_remedy_is_a_cooler_place() -> None:
    [finding] = findings(HOT + WEAK, RULE)
    assert "25 degC" in finding.remedy
    assert "no single change" not in finding.remedy


def test_one_cause_one_finding() -> None:
    """A hot store is told once: what follows from it lies beneath."""
    report = judged(HOT + WEAK, RULE, "supply.chiller-overloaded", "supply.cylinder-runs-out")
    assert [finding.rule for finding in report.findings] == [RULE]


def test_a_cooler_without_a_rating_makes_it_no_milder() -> None:
    unrated = "---\nkind: instrument\nco2_pump: {chiller_capacity: null}\n"
    [finding] = findings(HOT + unrated, RULE)
    assert finding.grade == "fault"
    assert "rated for the heat" not in finding.message
