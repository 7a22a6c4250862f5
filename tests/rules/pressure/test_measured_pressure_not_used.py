"""A measured pressure that contradicts the flow train is not dropped in silence."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "pressure.measured-pressure-not-used"
ISOCRATIC = (
    "kind: method\nprogramme: []\n"
    "mobile_phase: {modifier: {liquid: methanol}, modifier_share: 20 % v/v}\n"
)
DROP = (
    "---\nkind: column\nmeasured_drop: {pressure_drop: 60 bar, flow: 1.5 mL/min, modifier: LIQUID, "
    "modifier_share: 20 % v/v, temperature: 40 degC, outlet_pressure: 150 bar}\n"
)


def readings(*bars: float) -> str:
    rows = ", ".join(f"{{pump_pressure: {bar} bar, modifier_share: 20 % v/v}}" for bar in bars)
    return f"measured_pressures: [{rows}]\n"


def test_silent_where_nothing_was_measured() -> None:
    assert findings(ISOCRATIC, RULE) == []


@pytest.mark.parametrize("text", [readings(240), DROP.replace("LIQUID", "methanol")])
def test_silent_for_a_reading_that_fits(text: str) -> None:
    assert findings(ISOCRATIC + text, RULE) == []


def test_a_reading_below_the_outlet_pressure_is_said() -> None:
    [found] = findings(ISOCRATIC + readings(145), RULE)
    assert found.grade == "caution"
    assert "145 bar leaves no drop for the column" in found.message
    assert "bands stay those of a column without one" in found.message


def test_one_of_two_readings_that_cannot_be_is_said_and_the_other_counts() -> None:
    [found] = findings(ISOCRATIC + readings(145, 240), RULE)
    assert "bands are those of the other readings" in found.message


def test_a_drop_with_a_liquid_without_a_model_is_said_at_the_card() -> None:
    [found] = findings(ISOCRATIC + DROP.replace("LIQUID", "toluene"), RULE)
    assert "no model for the mobile phase it was measured with" in found.message
    assert found.at.document.kind == "column"
