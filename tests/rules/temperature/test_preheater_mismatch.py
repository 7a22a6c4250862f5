"""Preheating of a fast stream into a narrow column. 3 K, 2 mL/min, 3.0 mm: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "temperature.preheater-mismatch"


def lab(
    flow: float = 2.5,
    preheater: str = "false",
    exchanger: str = "false",
    setting: str = "null",
    diameter: float = 3.0,
) -> str:
    return f"""
kind: method
flow: {flow} mL/min
outlet_pressure: 120 bar
preheater_temperature: {setting}
programme: [{{time: 0 min, modifier_share: 5 % v/v}}]
---
kind: instrument
oven: {{preheater: {preheater}, built_in_exchanger: {exchanger}}}
---
kind: column
inner_diameter: {diameter} mm
"""


def test_silent_for_a_declared_exchanger() -> None:
    assert findings(lab(exchanger="true"), RULE) == []


def test_silent_for_slow_flow_or_a_wide_column() -> None:
    assert findings(lab(flow=2.0), RULE) == []
    assert findings(lab(diameter=4.6), RULE) == []


def test_silent_for_a_preheater_within_three_degrees() -> None:
    assert findings(lab(preheater="true", setting="38 degC"), RULE) == []


def test_no_preheater() -> None:
    [found] = findings(lab(), RULE)
    assert found.grade == "caution"
    assert found.remedy == "set the flow to 2 mL/min"


def test_a_preheater_at_another_temperature() -> None:
    [found] = findings(lab(preheater="true", setting="30 degC"), RULE)
    assert "30 degC" in found.message
    assert "40 degC" in found.message
    assert found.remedy == "set the preheater to 40 degC"


def test_not_stated_is_not_checked() -> None:
    report = judged(lab(preheater="null"), RULE)
    assert [item.missing for item in report.not_checked] == [("instrument.oven.preheater",)]


def test_a_preheater_far_from_the_oven_counts_whatever_else_warms_the_stream() -> None:
    for more in ({"exchanger": "true"}, {"flow": 1.0}, {"diameter": 4.6}):
        (found,) = findings(lab(preheater="true", setting="150 degC", **more), RULE)
        assert "150 degC" in found.message and "limit 10 K" in found.message
        assert findings(lab(preheater="true", setting="45 degC", **more), RULE) == []
