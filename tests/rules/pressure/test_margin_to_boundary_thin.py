"""Margin to the phase boundary.

Saturation of CO2 (Span and Wagner 1996): 64.3 bar at 25 degC, 72.1 bar at 30 degC. CO2 + methanol
at 50 degC: 97.9 bar measured at x(CO2) 0.80 (10.1016/j.fluid.2012.02.018).
"""

from __future__ import annotations

import itertools

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
    assert len(findings(lab(60, 119, 15), RULE)) == 1


def test_silent_for_a_liquid_well_above_saturation() -> None:
    assert findings(lab(25, 80), RULE) == []


def test_silent_where_two_phases_are_reported_already() -> None:
    assert findings(lab(60, 90), RULE) == []


def test_below_31_degrees_the_boundary_of_the_composition_counts() -> None:
    """Modifier lowers the boundary below the saturation of CO2 (72.1 bar at 30 degC)."""
    assert findings(lab(30, 82), RULE) == []
    [found] = findings(lab(30, 75), RULE)
    assert found.grade == "caution"
    assert found.found is not None
    assert 75 - 72.1 < found.found.value < 15.0


def test_the_margin_does_not_jump_at_the_critical_temperature_of_co2() -> None:
    margins = []
    for oven in (30.5, 30.9, 31.1, 31.5):
        [found] = findings(lab(oven, 82, 2), RULE)
        assert found.found is not None
        margins.append(found.found.value)
    steps = [first - second for first, second in itertools.pairwise(margins)]
    assert all(0.0 < step < 1.5 for step in steps), margins


def test_a_cold_oven_in_a_warm_room() -> None:
    assert findings(lab(15, 80, room="22 degC"), RULE) == []
    [found] = findings(lab(15, 75, room="30 degC"), RULE)
    assert "30 degC" in found.message


def test_a_warm_room_is_reported_inside_the_band_and_below_the_boundary_too() -> None:
    """No other rule judges the line at the room's temperature: silence would be a pass."""
    assert findings(lab(15, 80, room="30 degC"), RULE) == []
    for outlet in (60, 66):
        [found] = findings(lab(15, outlet, room="30 degC"), RULE)
        assert found.found is not None
        assert found.band is not None
        assert found.found.value < found.band.value


def test_a_few_bar_above_the_boundary_is_a_caution() -> None:
    [found] = findings(lab(50, 103), RULE)
    assert found.grade == "caution"
    assert "15 bar recommended" in found.message
    assert found.remedy.startswith("set the outlet pressure to 1")


def test_the_lab_may_want_another_margin() -> None:
    policy = "---\nkind: lab\npolicy: {boundary_margin: 60 bar}\n"
    assert findings(lab(40, 115), RULE) == []
    [found] = findings(lab(40, 115, policy=policy), RULE)
    assert "60 bar recommended" in found.message


def test_it_folds_beneath_two_phases() -> None:
    report = judged(lab(60, 108), RULE, "phase.two-phase-at-outlet")
    assert len(report.findings) == 1
