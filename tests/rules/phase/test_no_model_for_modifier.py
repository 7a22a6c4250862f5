"""Modifiers without a model."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "phase.no-model-for-modifier"


def test_silent_for_a_minor_part_below_two_per_cent() -> None:
    yaml = """
kind: method
mobile_phase:
  modifier:
    liquids: [{liquid: methanol, share: 98.5 % v/v}, {liquid: tetrahydrofuran, share: 1.5 % v/v}]
"""
    assert findings(yaml, RULE) == []


def test_silent_for_the_usual_modifiers_by_any_name() -> None:
    for liquid in ("methanol", "EtOH", "IPA", "MeCN"):
        assert findings(f"kind: method\nmobile_phase: {{modifier: {liquid}}}", RULE) == []


def test_silent_where_the_modifier_is_missing() -> None:
    assert findings("kind: method\nmobile_phase: {modifier: null}", RULE) == []


def test_a_modifier_without_a_model_is_a_caution_and_no_pass() -> None:
    report = judged(
        "kind: method\nmobile_phase: {modifier: ethyl acetate}", RULE, "phase.two-phase-at-outlet"
    )
    assert [found.grade for found in report.findings] == ["caution"]
    assert "ethyl acetate" in report.findings[0].message
    assert report.findings[0].remedy.startswith("use a modifier that has a model")
    assert "phase.two-phase-at-outlet" in {item.rule for item in report.not_checked}


def test_a_slip_is_told_before_any_advice() -> None:
    (found,) = findings("kind: method\nmobile_phase: {modifier: metanol}", RULE)
    assert found.remedy.startswith(
        "did you mean methanol? if 'metanol' is right, use a modifier that has a model"
    )


def test_another_isomer_is_no_slip() -> None:
    (found,) = findings("kind: method\nmobile_phase: {modifier: 2-butanol}", RULE)
    assert "did you mean" not in found.remedy
