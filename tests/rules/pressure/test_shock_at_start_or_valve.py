"""Pressure steps on soft columns. 0.5 mL/min in 10 s and 50 bar/s: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "pressure.shock-at-start-or-valve"


def lab(
    ramp: str, phase: str = "immobilised polysaccharide", more: str = "", rows: str = ""
) -> str:
    return f"kind: method\nflow_ramp: {ramp}\n{rows}---\nkind: column\nphase: {phase}\n{more}"


UP = """programme:
  - {time: 0 min, modifier_share: 20 % v/v, flow: 0.4 mL/min}
  - {time: 2 min, modifier_share: 20 % v/v, flow: 1.6 mL/min, step: true}
"""
DOWN = """programme:
  - {time: 0 min, modifier_share: 20 % v/v, flow: 1.6 mL/min}
  - {time: 2 min, modifier_share: 20 % v/v, flow: 0.4 mL/min, step: true}
settling_time: null
"""


def test_silent_where_the_column_card_allows_it() -> None:
    assert findings(lab("1 s", more="fast_pressurising: true"), RULE) == []
    assert findings(lab("1 s", more="fast_pressurising: true", rows=UP), RULE) == []


def test_silent_for_a_robust_phase() -> None:
    assert judged(lab("null", "bonded silica"), RULE).not_checked == []
    assert findings(lab("1 s", "bonded silica"), RULE) == []


def test_silent_for_a_slow_ramp() -> None:
    assert findings(lab("30 s"), RULE) == []


def test_silent_for_a_preparative_column_in_a_minute() -> None:
    """Area 21 mm to 4.6 mm: 20.8 times 0.5 mL/min in 10 s, so 60 mL/min take 58 s (geometry)."""
    wide = "inner_diameter: 21 mm\nlength: 250 mm\nparticle_size: 5 um\n"
    flow = "flow: 60 mL/min\n"
    assert findings(lab("60 s", more=wide, rows=flow), RULE) == []
    (found,) = findings(lab("40 s", more=wide, rows=flow), RULE)
    assert "10.4 mL/min in 10 s take 58 s" in found.message


def test_silent_for_a_step_down() -> None:
    assert findings(lab("40 s", rows=DOWN), RULE) == []


def test_a_fast_start_on_a_soft_column() -> None:
    [found] = findings(lab("5 s"), RULE)
    assert found.grade == "caution"
    assert found.remedy == "let the flow rise over 30 s"


def test_a_start_that_nobody_describes_is_not_checked() -> None:
    report = judged(lab("null"), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.flow_ramp",)]


def test_a_step_up_in_the_programme() -> None:
    [found] = findings(lab("30 s", "bonded silica", rows=UP), RULE)
    assert found.at.path == ("programme", 1)
    assert "within a second" in found.message
