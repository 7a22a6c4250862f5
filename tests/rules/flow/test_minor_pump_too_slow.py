"""flow.minor-pump-too-slow: 2 % of 1.0 mL/min = 0.02; spans: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "flow.minor-pump-too-slow"


def isocratic(share: str, flow: str = "1.0 mL/min") -> str:
    return f"kind: method\nflow: {flow}\nprogramme: []\nmobile_phase: {{modifier_share: {share} v/v}}\n"


def pumps(modifier: str = "0.05", hard: str = "0.01", co2: str = "0.05") -> str:
    return (
        "---\nkind: instrument\n"
        f"modifier_pump: {{lowest_accurate_flow: {modifier} mL/min, lowest_flow: {hard} mL/min}}\n"
        f"co2_pump: {{lowest_accurate_flow: {co2} mL/min, lowest_flow: {co2} mL/min}}\n"
    )


def test_silent_for_pure_co2_in_a_declared_hold() -> None:
    assert findings(isocratic("0 %") + pumps(), RULE) == []


def test_silent_for_pure_modifier_as_a_wash() -> None:
    assert findings(isocratic("100 %") + pumps(), RULE) == []


def test_silent_at_exactly_the_least_flow() -> None:
    """2 % of 1.0 mL/min are the 0.02 mL/min of the card."""
    assert findings(isocratic("2 %") + pumps(modifier="0.02"), RULE) == []


def test_silent_if_the_pump_without_a_figure_has_the_larger_part() -> None:
    report = judged(
        isocratic("20 %")
        + "---\nkind: instrument\nco2_pump: {lowest_accurate_flow: null, lowest_flow: null}",
        RULE,
    )
    assert (report.findings, report.not_checked) == ([], [])


def prep(co2: str = "2") -> str:
    """Say that the CO2 pump meters only from so many mL/min."""
    return pumps(co2=co2)


def test_silent_where_the_flow_gives_the_co2_pump_enough() -> None:
    """80 % of 2.5 mL/min are the 2 mL/min of the card (arithmetic)."""
    assert findings(isocratic("20 %", "2.5 mL/min") + prep(), RULE) == []


def test_the_larger_stream_is_put_right_by_the_flow_and_never_by_the_share() -> None:
    """80 % of 2 mL/min are 1.6 mL/min; 2 mL/min of CO2 are 80 % of 2.5 mL/min (arithmetic)."""
    (found,) = findings(isocratic("20 %", "2 mL/min") + prep(), RULE)
    assert "the CO2 pump has to meter 1.6 mL/min" in found.message
    assert found.message.endswith("it meters this share from 2.5 mL/min in all")
    assert found.at.path == ("flow",)
    assert found.remedy == "raise the flow to 2.5 mL/min"
    assert not any("modifier" in candidate.text for candidate in found.candidates)


def test_a_share_that_would_become_the_larger_one_is_not_proposed() -> None:
    """0.05 of 0.06 mL/min are 83 %; 5 % are metered from 1 mL/min on (arithmetic)."""
    (found,) = findings(isocratic("5 %", "0.06 mL/min") + pumps(hard="0.001", co2="0.01"), RULE)
    assert found.at.path == ("flow",)
    assert found.remedy == "raise the flow to 1 mL/min"


def test_a_flow_in_the_wrong_unit_is_found_at_the_flow() -> None:
    found = findings(isocratic("5 %", "3.0 uL/min") + pumps(), RULE)
    assert {item.at.path for item in found} == {("flow",)}
    assert not any("set the modifier" in item.remedy for item in found)


def test_caution_below_what_is_metered_accurately() -> None:
    (found,) = findings(isocratic("2 %") + pumps(), RULE)
    assert found.grade == "caution"
    assert found.found is not None and found.found.value == pytest.approx(0.02)
    assert found.limit is not None and found.limit.value == pytest.approx(0.05)
    assert "from 5 %" in found.message
    assert found.at.path == ("mobile_phase", "modifier_share")


def test_fault_below_the_hard_minimum() -> None:
    (found,) = findings(isocratic("2 %") + pumps(hard="0.03"), RULE)
    assert found.grade == "fault"
    assert "at all" in found.message


def test_at_90_per_cent_modifier_the_co2_pump_is_the_minor_one() -> None:
    """10 % of 0.4 mL/min are 0.04 mL/min (arithmetic)."""
    (found,) = findings(isocratic("90 %", "0.4 mL/min") + pumps(), RULE)
    assert "CO2 pump" in found.message
    assert found.found is not None and found.found.value == pytest.approx(0.04)
    assert found.remedy == "set the modifier to 87.5 % v/v"


def test_the_leanest_row_of_a_gradient_decides() -> None:
    (found,) = findings(
        "kind: method\nflow: 1.0 mL/min\nprogramme:\n"
        "  - {time: 0 min, modifier_share: 1 % v/v}\n"
        "  - {time: 1 min, modifier_share: 1.5 % v/v}\n"
        "  - {time: 5 min, modifier_share: 40 % v/v}\n",
        RULE,
    )
    assert found.at.path == ("programme", 0, "modifier_share")
    assert found.remedy == "set the modifier to 2 % v/v"


def test_remedy_is_the_least_share_in_halves_of_a_per_cent() -> None:
    """0.05 of 1.2 mL/min are 4.17 %, so 4.5 % (arithmetic)."""
    (found,) = findings(isocratic("2 %", "1.2 mL/min") + pumps(), RULE)
    assert found.remedy == "set the modifier to 4.5 % v/v"


def test_shares_are_told_as_parts_of_the_whole_flow() -> None:
    """9.5 % of 0.505 mL/min are 0.048 mL/min; 0.05 of it are 9.9 % (arithmetic)."""
    (found,) = findings(isocratic("9.5 %", "0.505 mL/min") + pumps(), RULE)
    assert "(9.5 % of 0.505 mL/min)" in found.message
    assert found.message.endswith("at this flow it meters from 9.9 %")


def test_a_minor_pump_without_a_figure_is_not_checked() -> None:
    report = judged(
        isocratic("2 %")
        + "---\nkind: instrument\nmodifier_pump: {lowest_accurate_flow: null, lowest_flow: null}",
        RULE,
    )
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [
        ("instrument.modifier_pump.lowest_accurate_flow",)
    ]
