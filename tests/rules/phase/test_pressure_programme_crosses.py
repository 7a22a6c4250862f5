"""Programmes of pressure and temperature. Boundary of CO2 + methanol at 65 degC: 111 bar (+-6, from memory)."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "phase.pressure-programme-crosses"
OUTLET = "phase.two-phase-at-outlet"


def lab(*rows: tuple[float, float, float], flow: str = "") -> str:
    lines = "\n".join(
        f"  - {{time: {t} min, outlet_pressure: {p} bar, temperature: {oven} degC{flow}}}"
        for t, p, oven in rows
    )
    return f"""
kind: method
oven_temperature: {rows[0][2]} degC
outlet_pressure: {rows[0][1]} bar
mobile_phase: {{modifier: methanol, modifier_share: 8 % v/v}}
programme:
{lines}
settling_time: null
pressure_limits: {{high: 340 bar, low: 100 bar}}
"""


WARM_FIRST = ((0, 95, 35), (3, 95, 65), (4, 180, 65))
PRESSURE_FIRST = ((0, 95, 35), (1, 180, 35), (4, 180, 65))


def test_silent_where_the_pressure_goes_up_first() -> None:
    assert findings(lab(*PRESSURE_FIRST), RULE) == []


def test_silent_without_a_programme_of_pressure() -> None:
    assert findings("", RULE) == []


def test_silent_without_flow_at_that_moment() -> None:
    yaml = lab(*WARM_FIRST)
    rows = yaml.split("\n")
    stopped = [
        line.replace("95 bar, temperature: 65", "95 bar, flow: 0 mL/min, temperature: 65")
        .replace("180 bar, temperature: 65 degC}", "180 bar, temperature: 65 degC, flow: 0 mL/min}")
        .replace("95 bar, temperature: 35 degC}", "95 bar, temperature: 35 degC, flow: 0 mL/min}")
        for line in rows
    ]
    last = "  - {time: 5 min, outlet_pressure: 180 bar, temperature: 65 degC, flow: 1.5 mL/min}"
    stopped.insert(stopped.index("settling_time: null"), last)
    assert findings("\n".join(stopped), RULE, OUTLET) == []


def test_silent_where_an_end_parts_already() -> None:
    [found] = findings(lab((0, 90, 65), (3, 180, 65)), RULE, OUTLET)
    assert found.rule == OUTLET


def test_warming_at_low_pressure_first_is_a_fault() -> None:
    [found] = findings(lab(*WARM_FIRST), RULE, OUTLET)
    assert found.rule == RULE
    assert found.grade == "fault"
    assert "begins and ends with one phase" in found.message


def test_a_ramp_that_the_regulator_cannot_follow() -> None:
    slow = "---\nkind: instrument\nregulator: {ramp: 40}\n"
    [found] = findings(lab((0, 120, 40), (1, 200, 40)) + slow, RULE)
    assert "80 bar per minute" in found.message
    assert found.remedy == "give this change 2 min"
    assert findings(lab((0, 120, 40), (2, 200, 40)) + slow, RULE) == []
