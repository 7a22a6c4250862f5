"""Heat of CO2 from 150 bar and 40 degC to gas at 20 degC: 216 kJ/kg (Span and Wagner 1996, computed);
10 % and 30 to 40 % of modifier: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "waste.bpr-freezes"
UNHEATED = "kind: instrument\nregulator: {heated: false, heater: null}\n"


def _share(share: str) -> str:
    return (
        "---\nkind: method\nprogramme: []\nmobile_phase: {modifier: {liquid: methanol, "
        f"line: modifier-1}}, modifier_share: {share} v/v}}\n"
    )


def test_silent_with_a_heater_that_suffices() -> None:
    assert findings("kind: instrument\nregulator: {heated: true, heater: 10 W}\n", RULE) == []


@pytest.mark.parametrize("share", ["35 %", "45 %"])
def test_silent_with_much_modifier(share: str) -> None:
    assert findings(UNHEATED + _share(share), RULE) == []


def test_silent_for_a_regulator_that_is_kept_warm() -> None:
    kept = "kind: instrument\nregulator: {heated: true, heater: null, temperature: 60 degC}\n"
    assert findings(kept, RULE) == []


def test_unheated_and_lean_is_a_fault() -> None:
    (found,) = findings(UNHEATED + _share("5 %"), RULE)
    assert found.grade == "fault"
    # about 1.36 g/min x 216 kJ/kg = 4.9 W; the modifier takes a little
    assert found.found is not None
    assert found.found.value == pytest.approx(4.9, rel=0.08)
    assert found.cautions == ("cold",)
    assert found.remedy == "heat the regulator with 10 W or more"


def test_unheated_with_some_modifier_is_a_caution() -> None:
    (found,) = findings(UNHEATED + _share("18 %"), RULE)
    assert found.grade == "caution"


def test_the_leanest_moment_of_a_gradient_counts() -> None:
    (found,) = findings(UNHEATED, RULE)
    assert found.grade == "fault"
    assert "5 % modifier" in found.message


def test_a_heater_that_is_too_small_is_a_caution() -> None:
    (found,) = findings("kind: instrument\nregulator: {heated: true, heater: 3 W}\n", RULE)
    assert found.grade == "caution"
    assert found.limit is not None
    assert found.limit.value == pytest.approx(3.0)


def test_what_is_not_declared_is_not_checked() -> None:
    (missing,) = judged("kind: instrument\nregulator: {heated: null}\n", RULE).not_checked
    assert missing.missing == ("instrument.regulator.heated",)
    heater = "kind: instrument\nregulator: {heated: true, heater: null}\n"
    assert judged(heater, RULE).not_checked[0].missing == ("instrument.regulator.heater",)
