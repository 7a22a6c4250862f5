"""Peroxides form while an ether stands in air: opened bottles are discarded after three months, common
practice, no source. The sound sequence begins on 2026-11-24.
"""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "solvent.peroxide-former"


def _bottle(text: str) -> str:
    return f"kind: solvents\nbottles:\n  - {{line: modifier-1, {text}}}\n"


def test_silent_for_alcohols_and_methyl_tert_butyl_ether() -> None:
    assert findings(_bottle("liquid: MTBE"), RULE) == []
    assert findings(_bottle("liquid: methanol"), RULE) == []


def test_silent_for_a_fresh_bottle() -> None:
    assert findings(_bottle("liquid: THF, opened: 2026-10-01"), RULE) == []


def test_silent_for_a_blend_with_little_ether() -> None:
    """4 % of it, against 5 %: common practice, no source."""
    blend = "liquids: [{liquid: methanol, share: 96 %}, {liquid: THF, share: 4 %}]"
    assert findings(_bottle(blend), RULE) == []
    (found,) = findings(_bottle(blend.replace("96", "95").replace("4 %", "5 %")), RULE)
    assert found.grade == "stop"


def test_inhibited_is_a_note() -> None:
    (found,) = findings(_bottle("liquid: THF, inhibited: true"), RULE)
    assert found.grade == "note"


def test_undated_is_a_stop() -> None:
    (found,) = findings(_bottle("liquid: dioxane, inhibited: false"), RULE)
    assert found.grade == "stop"
    assert "carries no date of opening" in found.message


def test_old_is_a_stop_with_its_age() -> None:
    (found,) = findings(_bottle("liquid: THF, opened: 2026-06-24"), RULE)
    assert found.found is not None
    assert found.found.value == 153  # calendar: 24 June to 24 November
    assert "no single change" not in found.remedy


def test_a_lab_may_be_stricter_and_cannot_put_off_the_stop() -> None:
    """54 days from 1 October to 24 November, 153 from 24 June (calendar)."""
    policy = "---\nkind: lab\npolicy: {{ether_shelf_life: {}}}\n"
    recent = _bottle("liquid: THF, opened: 2026-10-01")
    assert findings(recent + policy.format("60 d"), RULE) == []
    (found,) = findings(recent + policy.format("53 d"), RULE)
    assert found.found is not None
    assert (found.grade, found.found.value) == ("stop", 54)
    old = _bottle("liquid: THF, opened: 2026-06-24") + policy.format("400 d")
    assert [one.grade for one in findings(old, RULE)] == ["stop"]


def test_an_inhibited_ether_lasts_a_year() -> None:
    assert findings(_bottle("liquid: THF, inhibited: true, opened: 2026-02-01"), RULE) == []
    assert len(findings(_bottle("liquid: THF, inhibited: true, opened: 2025-10-01"), RULE)) == 1
    (found,) = findings(_bottle("liquid: THF, inhibited: false, opened: 2026-02-01"), RULE)
    assert found.grade == "stop"
