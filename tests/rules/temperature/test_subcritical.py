"""Low temperatures. Saturation of CO2: 64.3 bar at 25 degC (Span and Wagner 1996)."""

from __future__ import annotations

from methodlint.judging.loader import built_in_rules
from tests.rules.harness import findings, judged

RULE = "temperature.subcritical"


def test_silent_above_31_degrees() -> None:
    report = judged("kind: method\noven_temperature: 31.1 degC", RULE)
    assert (report.findings, report.not_checked) == ([], [])


def test_it_can_be_nothing_but_a_note() -> None:
    [rule] = [rule for rule in built_in_rules() if rule.id == RULE]
    assert rule.grades == ("note",)


def test_a_note_with_the_saturation_pressure() -> None:
    [found] = findings("kind: method\noven_temperature: 25 degC", RULE)
    assert found.grade == "note"
    assert "64.3 bar" in found.message
    assert "supercritical" not in found.message


def test_the_coolest_row_counts() -> None:
    yaml = """
kind: method
programme:
  - {time: 0 min, modifier_share: 5 % v/v, temperature: 40 degC}
  - {time: 5 min, modifier_share: 5 % v/v, temperature: 20 degC}
"""
    [found] = findings(yaml, RULE)
    assert "20 degC" in found.message


def test_the_verdict_stays_clear() -> None:
    yaml = "kind: method\noven_temperature: 25 degC\noutlet_pressure: 110 bar"
    assert judged(yaml, RULE).verdict == "clear to run"
