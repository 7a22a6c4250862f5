"""flow.co2-head-too-warm: limits are common practice, no source; densities Span & Wagner 1996."""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings, judged

RULE = "flow.co2-head-too-warm"


def head(temperature: str, more: str = "") -> str:
    return f"kind: instrument\nco2_pump: {{head_temperature: {temperature}{more}}}\n"


@pytest.mark.parametrize("metering", ["mass", "compensated"])
def test_silent_if_metered_by_mass_or_density(metering: str) -> None:
    assert findings(head("18 degC", f", metering: {metering}"), RULE) == []


def test_silent_with_a_booster_and_a_metering_stage() -> None:
    assert findings(head("18 degC", ", booster: true"), RULE) == []


def test_silent_at_the_limit() -> None:
    """12 degC itself is sound, from a store warm enough."""
    assert findings(head("12 degC") + "---\nkind: supply\nstore_temperature: 22 degC", RULE) == []


@pytest.mark.parametrize("supply", ["padded: true", "booster: true", "withdrawal: bulk"])
def test_silent_about_boiling_if_the_supply_is_pressed(supply: str) -> None:
    changes = head("11 degC") + f"---\nkind: supply\nstore_temperature: 15.5 degC\n{supply}"
    assert findings(changes, RULE) == []


def test_silent_about_boiling_where_the_inlet_flashes_anyway() -> None:
    """Store 3 degC below a head at 8 degC: another rule's finding (38 against 43 bar)."""
    assert findings(head("8 degC") + "---\nkind: supply\nstore_temperature: 3 degC", RULE) == []


def test_silent_about_boiling_where_the_store_holds_gas_alone() -> None:
    """50 g/L at 15 degC is gas at 23 bar, saturation 51 bar (Span and Wagner 1996): it flashes."""
    store = "kind: supply\nstore_temperature: 15 degC\nwater_capacity: 40 L\nnet_mass: 2 kg"
    assert findings(head("11 degC") + "---\n" + store, RULE) == []
    assert findings(head("11 degC") + "---\n" + store, "supply.pump-inlet-flashes") != []


def test_a_warm_head_loses_mass() -> None:
    """930 against 954 kg/m3, 15 and 10 degC, 150 bar: -2.5 % (Span & Wagner 1996)."""
    (found,) = findings(
        head("15 degC") + "---\nkind: method\noutlet_pressure: 150 bar\nflow: 0.05 mL/min\n"
        "programme: []\nmobile_phase: {modifier_share: 50 % v/v}",
        RULE,
    )
    assert found.grade == "caution"
    error = re.search(r"delivers ([\d.]+) % less CO2", found.message)
    assert error is not None
    assert float(error[1]) == pytest.approx((1 - 930 / 954) * 100, abs=0.15)
    assert "retention shortens" in found.message
    assert found.remedy == "cool the head to 8 degC"


def test_a_head_near_boiling() -> None:
    """Store 15 degC without line loss: a head at 11 degC is 4 K below (arithmetic)."""
    (found,) = findings(
        head("11 degC") + "---\nkind: supply\nline_loss: 0 bar\n"
        "store_temperature: {value: 15 degC, tolerance: 0.1 degC}",
        RULE,
    )
    assert found.grade == "fault"
    assert found.found is not None and found.found.value == pytest.approx(4.0, abs=0.05)
    assert found.remedy.startswith("cool the head to")


def test_near_boiling_within_the_store_tolerance_is_a_caution() -> None:
    (found,) = findings(
        head("11 degC") + "---\nkind: supply\nline_loss: 0 bar\n"
        "store_temperature: {value: 15 degC, tolerance: 3 degC}",
        RULE,
    )
    assert found.grade == "caution"
    assert found.possible


def test_a_store_without_a_temperature_is_not_checked() -> None:
    report = judged("kind: supply\nstore_temperature: null", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("supply.store_temperature",)]
