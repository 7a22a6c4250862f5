"""1 mL of CO2 as pumped (954 kg/m3 at 10 degC and 150 bar, Span and Wagner 1996) is 0.52 L of gas at
1.839 kg/m3; the sound lab pumps about 1.4 mL/min, 0.75 L/min of gas."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "waste.no-gas-separation"


def _regulator(kind: str) -> str:
    return f"kind: instrument\nregulator: {{gas_separation: {kind}}}\n"


@pytest.mark.parametrize("kind", ["vented separator", "vented vessel"])
def test_silent_with_a_declared_vent(kind: str) -> None:
    assert findings(_regulator(kind), RULE) == []


def test_closed_bottle_is_a_stop() -> None:
    (found,) = findings(_regulator("closed bottle"), RULE)
    assert found.grade == "stop"
    assert found.found is not None
    assert found.found.value == pytest.approx(1.425 * 0.52, rel=0.1)
    assert found.cautions == ("pressure", "asphyxiation")
    assert found.remedy == "lead it into a vented separator"


def test_a_capped_waste_vessel_is_a_caution() -> None:
    vessel = "waste: [{name: bottle, capacity: 5 L, level: 0 L, vented: false}]\n"
    (found,) = findings(f"kind: room\n{vessel}", RULE)
    assert found.grade == "caution"
    assert "gives off CO2" in found.message


def test_what_is_not_declared_is_not_checked_and_could_be_a_stop() -> None:
    (missing,) = judged(_regulator("null"), RULE).not_checked
    assert missing.missing == ("instrument.regulator.gas_separation",)
    assert missing.can_stop
