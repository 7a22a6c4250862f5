"""The low limit of the pumps. 0.8 of the lowest pump pressure: common practice, no source."""

from __future__ import annotations

import math

from tests.rules.harness import findings, judged

RULE = "pressure.low-limit-missing"


def lab(low: str, more: str = "") -> str:
    return f"kind: method\npressure_limits: {{high: 340 bar, low: {low}}}\n{more}"


WIDE = """---
kind: column
length: 50 mm
particle_size: 10 um
"""


def test_silent_between_setting_and_lowest_pump_pressure() -> None:
    assert findings(lab("160 bar"), RULE) == []


def test_silent_at_a_setting_where_the_column_costs_too_little_for_more() -> None:
    assert findings(lab("125 bar", WIDE), RULE) == []


def test_missing_gives_the_value_to_type() -> None:
    lowest = float(judged("", RULE).runs[0].run.pump_pressure.min()) / 1e5
    [found] = findings(lab("null"), RULE)
    assert found.grade == "caution"
    wanted = max(0.8 * lowest, 155.0)
    assert found.remedy == (
        f"set the low pressure limit to {math.floor(wanted)} bar, armed after the start"
    )


def test_a_limit_below_the_setting_sees_no_leak() -> None:
    [found] = findings(lab("130 bar"), RULE)
    assert "sees no leak" in found.message


def test_a_limit_above_the_lowest_pressure_stops_every_run() -> None:
    [found] = findings(lab("300 bar"), RULE)
    assert "stops every run" in found.message


def test_where_the_drop_is_small_it_says_what_a_limit_can_detect() -> None:
    [found] = findings(lab("null", WIDE), RULE)
    assert "detects an empty cylinder only" in found.message
    assert "a leak needs a sensor" not in found.message
    blind = WIDE + "---\nkind: instrument\ntrips: {leak_sensor: false}\n"
    [found] = findings(lab("null", blind), RULE)
    assert "a leak needs a sensor" in found.message
