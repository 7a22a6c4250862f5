"""flow.column-volume-flow-differs: a note, never more."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "flow.column-volume-flow-differs"

# 4.6 x 250 mm, 5 um, 3.0 mL/min, 5 % methanol, 40 degC, 120 bar: 3.6 to 3.9 mL/min
# (worked example of the catalogue by ideal mixing; computed there, not published).
WORKED = """
kind: column
length: 250 mm
inner_diameter: 4.6 mm
particle_size: 5 um
---
kind: method
flow: 3.0 mL/min
outlet_pressure: 120 bar
programme: []
mobile_phase: {modifier_share: 5 % v/v}
---
kind: instrument
co2_pump: {head_temperature: 10 degC}
"""


def test_silent_in_a_cool_dense_column() -> None:
    assert findings("kind: method\noven_temperature: 20 degC\noutlet_pressure: 200 bar", RULE) == []


def rows(*lines: str) -> str:
    listed = "".join(f"  - {{modifier_share: 5 % v/v, {line}}}\n" for line in lines)
    return WORKED.replace("programme: []\n", f"programme:\n{listed}")


def test_silent_where_nothing_flows_at_the_start() -> None:
    rest = "time: 1 min, flow: 3 mL/min", "time: 6 min, flow: 3 mL/min"
    assert findings(rows("time: 0 min, flow: 0 mL/min", *rest), RULE) == []
    assert len(findings(rows("time: 0 min, flow: 3 mL/min", *rest), RULE)) == 1


def test_silent_where_the_run_starts_with_two_phases() -> None:
    """The margin of the next moment says nothing about the start."""
    rest = "time: 0 min, outlet_pressure: 120 bar", "time: 6 min, outlet_pressure: 120 bar"
    assert findings(rows("time: 0 min, outlet_pressure: 60 bar", *rest), RULE) == []
    assert len(findings(rows(*rest), RULE)) == 1


def test_the_worked_example() -> None:
    (found,) = findings(WORKED, RULE)
    assert found.grade == "note"
    assert found.found is not None
    # The band covers ideal against real mixing of the two densities.
    assert 3.4 <= found.found.value <= 4.0
    share = 100.0 * (found.found.value / 3.0 - 1.0)
    assert f"({share:+.0f} %)" in found.message


def test_it_never_proposes_a_correction() -> None:
    (found,) = findings(WORKED, RULE)
    assert found.candidates == ()
    assert "leave the flow" in found.remedy
