"""Margin to the phase boundary.

Saturation of CO2 (Span and Wagner 1996): 64.3 bar at 25 degC, 72.1 bar at 30 degC. Boundary of
CO2 + methanol at 50 degC: 92 bar by a cubic equation, +-5 bar (from memory).
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "pressure.margin-to-boundary-thin"


def lab(
    oven: float, outlet: float, share: float = 15, room: str = "22 degC", policy: str = ""
) -> str:
    return f"""
kind: method
oven_temperature: {oven} degC
outlet_pressure: {outlet} bar
programme: [{{time: 0 min, modifier_share: {share} % v/v}}]
pressure_limits: {{high: 340 bar, low: 100 bar}}
---
kind: room
highest_temperature: {room}
lowest_temperature: 15 degC
{policy}"""


def test_silent_where_the_boundary_has_vanished_at_this_composition() -> None:
    assert findings(lab(60, 110, 0.5), RULE) == []
    assert len(findings(lab(60, 115, 15), RULE)) == 1


def test_silent_for_a_liquid_well_above_saturation() -> None:
    assert findings(lab(25, 80), RULE) == []


def test_silent_where_two_phases_are_reported_already() -> None:
    assert findings(lab(60, 90), RULE) == []


def test_below_31_degrees_saturation_at_the_warmest_place_counts() -> None:
    [found] = findings(lab(30, 80), RULE)
    assert found.grade == "caution"
    assert "saturation of CO2 at 30 degC is 72.1 bar" in found.message
    assert found.found is not None
    assert found.found.value == pytest.approx(80 - 72.1, abs=0.1)


def test_a_cold_oven_in_a_warm_room() -> None:
    assert findings(lab(15, 80, room="22 degC"), RULE) == []
    [found] = findings(lab(15, 80, room="30 degC"), RULE)
    assert "30 degC" in found.message


def test_a_few_bar_above_the_boundary_is_a_caution() -> None:
    [found] = findings(lab(50, 100), RULE)
    assert found.grade == "caution"
    assert "15 bar wanted" in found.message
    assert found.remedy.startswith("set the outlet pressure to 1")


def test_the_lab_may_want_another_margin() -> None:
    policy = "---\nkind: lab\npolicy: {boundary_margin: 60 bar}\n"
    assert findings(lab(40, 115), RULE) == []
    [found] = findings(lab(40, 115, policy=policy), RULE)
    assert "60 bar wanted" in found.message


def test_it_folds_beneath_two_phases() -> None:
    report = judged(lab(60, 108), RULE, "phase.two-phase-at-outlet")
    assert len(report.findings) == 1
