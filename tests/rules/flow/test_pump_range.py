"""flow.pump-range: limits of the cards; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "flow.pump-range"

# 5 mL/min is the highest flow of both pumps of the sound lab.
ONE_FLUID = (
    "kind: method\nflow: 4.9 mL/min\nmobile_phase: {modifier_share: 0 % v/v}\nprogramme: []\n"
)


def test_silent_for_the_sound_lab() -> None:
    assert findings("", RULE) == []


def test_silent_if_only_the_total_is_above_what_one_pump_reaches() -> None:
    """6 mL/min with 40 % modifier are 3.6 and 2.4 mL/min (arithmetic)."""
    changes = (
        "kind: method\nflow: 6 mL/min\nmobile_phase: {modifier_share: 40 % v/v}\nprogramme: []"
    )
    assert findings(changes, RULE) == []


def test_silent_if_a_pump_stands_still_in_a_declared_single_fluid_hold() -> None:
    """A pump at exactly 0 needs no card."""
    changes = ONE_FLUID + "---\nkind: instrument\nmodifier_pump: {highest_flow: null}"
    report = judged(changes, RULE)
    assert report.findings == []
    assert report.not_checked == []


def test_silent_if_the_makeup_pump_is_off() -> None:
    changes = "kind: method\nmakeup: {liquid: methanol, flow: 0 mL/min}"
    assert findings(changes, RULE) == []


def test_co2_pump_at_its_leanest_row() -> None:
    """95 % of 5.5 mL/min are 5.225 mL/min (arithmetic)."""
    (found,) = findings("kind: method\nflow: 5.5 mL/min", RULE)
    assert found.grade == "fault"
    assert found.found is not None and found.found.value == pytest.approx(5.225)
    assert "CO2 pump" in found.message and "5 mL/min" in found.message
    assert found.remedy == "set the flow there to 5.2 mL/min"


def test_modifier_pump_at_its_richest_row() -> None:
    """98 % of 5.2 mL/min are 5.096 mL/min (arithmetic)."""
    (found,) = findings(
        "kind: method\nflow: 2 mL/min\nprogramme:\n"
        "  - {time: 0 min, modifier_share: 50 % v/v}\n"
        "  - {time: 5 min, modifier_share: 98 % v/v, flow: 5.2 mL/min}\n",
        RULE,
    )
    assert "modifier pump" in found.message
    assert found.at.path == ("programme", 1, "flow")
    assert found.found is not None and found.found.value == pytest.approx(5.096)


@pytest.mark.parametrize(("flow", "words"), [("3 mL/min", "up to 2"), ("5 uL/min", "from")])
def test_makeup_pump_at_both_ends(flow: str, words: str) -> None:
    (found,) = findings(f"kind: method\nmakeup: {{liquid: methanol, flow: {flow}}}", RULE)
    assert words in found.message


def test_a_card_without_the_limit_is_not_a_pass() -> None:
    report = judged("kind: instrument\nco2_pump: {highest_flow: null}", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("instrument.co2_pump.highest_flow",)]


def test_a_mass_flow_is_not_a_pass() -> None:
    report = judged("kind: method\nflow: 2 g/min", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.flow",)]
