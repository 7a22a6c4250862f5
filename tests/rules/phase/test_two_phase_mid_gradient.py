"""Two phases between the sound ends of a gradient.

The boundary of CO2 + ethanol at 60 degC is highest in between: literature has about 106 +- 4 bar
(from memory).
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "phase.two-phase-mid-gradient"
OUTLET = "phase.two-phase-at-outlet"


def method(outlet: float, rows: str, mixer: str = "0.2 mL") -> str:
    return f"""
kind: method
oven_temperature: 60 degC
outlet_pressure: {outlet} bar
mobile_phase: {{modifier: {{liquid: ethanol, line: modifier-2}}}}
programme:
{rows}
run_length: 9 min
pressure_limits: {{high: 340 bar, low: 100 bar}}
---
kind: instrument
train:
  - {{part: mixer, name: mixer, volume: {mixer}, pressure_rating: 550 bar}}
  - {{part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}}
  - {{part: column}}
  - {{part: regulator, name: regulator, pressure_rating: 380 bar}}
"""


RAMP = """  - {time: 0 min, modifier_share: 1 % v/v}
  - {time: 6 min, modifier_share: 70 % v/v}"""
STEP = """  - {time: 0 min, modifier_share: 1 % v/v}
  - {time: 2 min, modifier_share: 70 % v/v, step: true}
  - {time: 8 min, modifier_share: 1 % v/v, step: true}"""
ONE_END = """  - {time: 0 min, modifier_share: 8 % v/v}
  - {time: 6 min, modifier_share: 70 % v/v}"""


def test_silent_above_the_highest_boundary_on_the_way() -> None:
    assert findings(method(150, RAMP), RULE) == []


def test_silent_where_an_end_parts_already() -> None:
    """That is the finding of the outlet, and one cause gives one finding."""
    assert findings(method(90, ONE_END), RULE) == []
    assert [found.rule for found in findings(method(90, ONE_END), OUTLET, RULE)] == [OUTLET]


def test_silent_for_an_isocratic_method() -> None:
    assert findings(method(90, "  - {time: 0 min, modifier_share: 20 % v/v}"), RULE) == []


def test_both_ends_sound_and_the_middle_not_is_a_fault() -> None:
    [found] = findings(method(93, RAMP), RULE, OUTLET)
    assert found.rule == RULE
    assert found.grade == "fault"
    assert "both ends of the gradient are one phase" in found.message
    assert found.limit is not None
    assert found.limit.value == pytest.approx(106, abs=5)


def test_the_worst_moment_is_later_than_the_programme_says() -> None:
    """0.2 mL of mixer and 0.7 mL of column at 1.5 mL/min delay it by more than half a minute."""
    [found] = findings(method(93, RAMP), RULE)
    assert found.when is not None
    assert found.when.end is not None
    leaves_at_pump = 6.0 * 60.0 * (53.0 - 1.0) / 69.0
    assert found.when.end > leaves_at_pump - 60.0
    assert found.when.start is not None
    assert found.when.start > 30.0


def test_a_front_that_is_through_in_less_than_five_seconds_is_a_caution() -> None:
    [found] = findings(method(93, STEP, "0.02 mL"), RULE)
    assert found.grade == "caution"
    assert "less than 5 s" in found.message


def test_a_front_that_takes_longer_is_a_fault() -> None:
    [found] = findings(method(93, STEP, "0.5 mL"), RULE)
    assert found.grade == "fault"


def test_remedy_was_tried() -> None:
    [found] = judged(method(93, RAMP), RULE, OUTLET).findings
    assert found.remedy.startswith("set the outlet pressure to 1")
