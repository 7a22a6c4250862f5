"""`supply.pump-inlet-flashes`: pressure of the store against saturation on the way."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "supply.pump-inlet-flashes"
COLD = """
kind: supply
store_temperature: {value: 3 degC, tolerance: 0.2 K}
line_temperature: 3 degC
line_loss: 0 bar
"""


def test_silent_from_a_store_that_is_warm_enough() -> None:
    """45.8 bar are wanted, 11 degC give 46.1 bar (Span and Wagner 1996)."""
    text = COLD.replace("value: 3", "value: 11.5").replace(
        "line_temperature: 3", "line_temperature: 11"
    )
    assert findings(text, RULE) == []


def test_silent_when_padded_with_helium() -> None:
    assert findings(f"{COLD}padded: true", RULE) == []


def test_silent_with_a_booster_at_the_supply() -> None:
    assert findings(f"{COLD}booster: true", RULE) == []


def test_silent_with_a_booster_in_the_pump() -> None:
    assert findings(f"{COLD}---\nkind: instrument\nco2_pump: {{booster: true}}", RULE) == []


def test_silent_with_a_line_as_warm_as_the_store() -> None:
    assert findings("", RULE) == []


def test_cold_yard_is_a_fault_with_both_pressures() -> None:
    """37.7 bar at 3 degC and 42.8 bar at 8 degC (Span and Wagner 1996, CoolProp 8.0.0)."""
    [finding] = findings(COLD, RULE)
    assert finding.grade == "fault"
    assert "37.7 bar" in finding.message
    assert "42.8 bar" in finding.message
    assert "8 degC" in finding.message
    assert finding.limit is not None
    assert round(finding.limit.value, 1) == 45.8
    assert finding.cautions == ("cold",)


def test_caution_inside_the_tolerance_of_the_store() -> None:
    text = COLD.replace("{value: 3 degC, tolerance: 0.2 K}", "{value: 11.5 degC, tolerance: 2 K}")
    [finding] = findings(text, RULE)
    assert (finding.grade, finding.possible) == ("caution", True)


def test_warm_line_is_a_caution_of_its_own() -> None:
    """Saturation at 25 degC is 64.3 bar (Span and Wagner 1996), a store at 15 degC gives 50.9."""
    [finding] = findings("kind: supply\nline_temperature: 25 degC", RULE)
    assert finding.grade == "caution"
    assert "64.3 bar" in finding.message
    assert finding.at.path == ("line_temperature",)
    assert "insulate or cool the line" in finding.remedy


def test_loss_unknown_is_not_checked_unless_it_boils_without_any() -> None:
    warm = judged("kind: supply\nline_loss: null", RULE)
    assert [item.missing for item in warm.not_checked] == [("supply.line_loss",)]
    cold = judged(COLD.replace("line_loss: 0 bar", "line_loss: null"), RULE)
    assert [finding.grade for finding in cold.findings] == ["fault"]
    assert cold.not_checked == []


def test_remedy_cools_the_head_or_moves_the_store() -> None:
    """T_sat(37.7 - 3 bar) is just below 0 degC, T_sat(42.8 + 3 bar) just below 11 degC."""
    [finding] = findings(COLD, RULE)
    assert "no single change" not in finding.remedy
    assert "cool the pump head to -1 degC" in finding.remedy
    assert "11 degC or more" in finding.remedy
    assert "warm the cylinder" not in finding.remedy


def test_a_store_too_cold_for_any_head_is_moved() -> None:
    """28.0 bar at -8 degC less 3 bar are left below -12 degC; 11 degC of the store give 45.8 bar."""
    cold = COLD.replace("value: 3 degC", "value: -8 degC").replace("e: 3 degC", "e: -8 degC")
    [finding] = findings(cold, RULE)
    assert finding.remedy.startswith("keep the cylinder where it stays at 11 degC or more")
    assert "pump head" not in finding.remedy


def test_a_head_too_warm_for_any_store_is_cooled() -> None:
    """Saturation at 30 degC is 72.1 bar: with 3 bar above it no liquid CO2 has such a pressure."""
    warm = COLD.replace("value: 3 degC", "value: 15 degC").replace("e: 3 degC", "e: 15 degC")
    [finding] = findings(
        f"{warm}---\nkind: instrument\nco2_pump: {{head_temperature: 30 degC}}", RULE
    )
    # 50.9 bar at 15 degC less 3 bar is saturation at 12.5 degC.
    assert finding.remedy.startswith("cool the pump head to 12 degC")
    assert "cylinder" not in finding.remedy
