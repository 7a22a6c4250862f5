"""Volumes by hand in an isocratic case; four fifths of the capacity: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "waste.bottle-overflows"

# 2 mL/min with 25 % is 0.5 mL/min; 10 min a cycle: 5 mL of modifier and 0.2 mL of wash each time
LAB = """kind: method
flow: 2 mL/min
programme: []
mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 25 % v/v}
run_length: 8 min
settling_time: 2 min
---
kind: instrument
cycle_overhead: 0 min
---
kind: sequence
equilibration: 10 min
lines:
  - {kind: sample, sample: extract 1, plate: 1, well: D1, count: 40}
---
kind: room
waste:
"""


def _lab(*vessels: str) -> str:
    return LAB + "".join(f"  - {{{vessel}}}\n" for vessel in vessels)


def test_silent_in_the_sound_lab() -> None:
    assert findings("", RULE) == []


def test_silent_with_a_drain() -> None:
    assert findings(_lab("name: drain, capacity: 100 mL, level: 0 mL, drain: true"), RULE) == []


def test_silent_when_the_stream_ends_elsewhere() -> None:
    small = "name: small, capacity: 100 mL, level: 0 mL, receives: [needle wash]"
    large = "name: large, capacity: 5 L, level: 0 mL, receives: [mobile phase, purge]"
    assert findings(_lab(small, large), RULE) == []


def test_full_during_the_injection_worked_out_by_hand() -> None:
    (found,) = findings(_lab("name: bottle, capacity: 250 mL, level: 50 mL"), RULE)
    # 0.8 x 250 - 50 = 150 mL; 55 mL before the first; 95 mL at 5.2 mL each are 18.3 injections
    assert found.grade == "fault"
    assert found.when is not None
    assert found.when.injection == 19
    assert found.found is not None
    assert found.found.value == pytest.approx(0.263, rel=1e-3)
    assert found.limit is not None
    assert found.limit.value == pytest.approx(0.150)


def test_the_lab_sets_another_part() -> None:
    own = "\n---\nkind: lab\npolicy: {waste_fill: 99 %}\n"
    vessel = "name: bottle, capacity: 300 mL, level: 10 mL"
    assert len(findings(_lab(vessel), RULE)) == 1
    assert findings(_lab(vessel) + own, RULE) == []


def test_remedy_empties_it() -> None:
    (found,) = findings(_lab("name: bottle, capacity: 400 mL, level: 200 mL"), RULE)
    assert found.remedy == "empty it before the start"


def test_a_vessel_too_small_even_when_empty_says_so() -> None:
    (found,) = findings(_lab("name: bottle, capacity: 100 mL, level: 50 mL"), RULE)
    assert found.remedy.startswith("no single change")


def test_a_capacity_that_is_not_given_is_not_checked() -> None:
    report = judged(_lab("name: bottle, level: 50 mL"), RULE)
    assert report.not_checked[0].missing == ("room.waste[0].capacity",)


def test_several_vessels_have_to_say_what_they_receive() -> None:
    one = "name: one, capacity: 5 L, level: 0 mL"
    assert len(judged(_lab(one, one.replace("one", "two")), RULE).not_checked) == 2
