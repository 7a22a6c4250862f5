"""Water in the modifier; the table is from memory and not verified."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "phase.water-splits-out"


def lab(water: float, start: float, end: float = 40, liquid: str = "methanol") -> str:
    return f"""
kind: method
mobile_phase:
  modifier:
    liquids: [{{liquid: {liquid}, share: {100 - water} % v/v}}, {{liquid: water, share: {water} % v/v}}]
    line: modifier-1
programme:
  - {{time: 0 min, modifier_share: {start} % v/v}}
  - {{time: 5 min, modifier_share: {end} % v/v}}
"""


@pytest.mark.parametrize(
    ("water", "start"), [(1, 2), (2, 3), (5, 3), (5, 10), (10, 15)], ids=lambda v: f"{v}"
)
def test_silent_for_water_as_a_useful_additive_in_methanol(water: float, start: float) -> None:
    assert findings(lab(water, start), RULE) == []


def test_silent_without_water() -> None:
    assert findings("", RULE) == []


@pytest.mark.parametrize(
    ("water", "start", "liquid"),
    [(12, 20, "methanol"), (10, 5, "methanol"), (7, 20, "acetonitrile"), (5, 5, "acetonitrile")],
)
def test_too_much_water_is_a_fault(water: float, start: float, liquid: str) -> None:
    [found] = findings(lab(water, start, liquid=liquid), RULE)
    assert found.grade == "fault"
    assert "% water" in found.message
    assert "stay dissolved" in found.message
    assert "% water or less" in found.remedy


def test_the_leanest_point_decides() -> None:
    assert findings(lab(10, 15), RULE) == []
    [found] = findings(lab(10, 3), RULE)
    assert found.remedy.startswith("start with 10 % modifier")


def test_water_written_as_an_additive_counts() -> None:
    yaml = """
kind: method
mobile_phase:
  modifier: {liquid: methanol, line: modifier-1, additives: [{additive: water, level: 9 % v/v}]}
programme: [{time: 0 min, modifier_share: 3 % v/v}]
"""
    assert len(findings(yaml, RULE)) == 1
