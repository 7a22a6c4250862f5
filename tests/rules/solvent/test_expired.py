"""Acids in alcohols are good for a week, other additives for 30 days and aqueous buffers for three where
the lab sets nothing: common practice, no source. The sound sequence begins on 2026-11-24.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "solvent.expired"


def _bottle(text: str) -> str:
    return f"kind: solvents\nbottles:\n  - {{line: modifier-1, {text}}}\n"


ACID = "additives: [{additive: formic acid, level: 0.1 % v/v}]"
AMINE = "additives: [{additive: diethylamine, level: 0.1 % v/v}]"
SALT = "additives: [{additive: ammonium formate, level: 10 mM}]"


def test_silent_for_a_neat_liquid_without_date() -> None:
    assert findings(_bottle("liquid: methanol"), RULE) == []


def test_silent_on_the_last_day() -> None:
    assert findings(_bottle("liquid: methanol, expires: 2026-11-24"), RULE) == []


def test_silent_for_a_fresh_additive() -> None:
    assert findings(_bottle(f"liquid: methanol, {SALT}, opened: 2026-11-20"), RULE) == []


def test_silent_for_a_liquid_to_which_only_water_was_added() -> None:
    water = "additives: [{additive: water, level: 5 % v/v}]"
    assert findings(_bottle(f"liquid: methanol, {water}, opened: 2026-08-24"), RULE) == []


def test_silent_within_the_shelf_life_on_the_card_of_the_bottles() -> None:
    """Two weeks before the start; the card's month goes before the week of the lab's policy."""
    text = f"{_bottle(f'liquid: methanol, {ACID}, opened: 2026-11-10')}additive_shelf_life: 30 d\n"
    week = "---\nkind: lab\npolicy: {additive_shelf_life: 7 d}\n"
    assert findings(text + week, RULE) == []


def test_yesterday_is_a_caution_from_the_first_injection() -> None:
    (found,) = findings(_bottle("liquid: methanol, expires: 2026-11-23"), RULE)
    assert found.grade == "caution"
    assert found.when is not None
    assert found.when.injection == 1


def test_at_midnight_names_the_injection_after_it() -> None:
    begins = "---\nkind: sequence\nbegins: 2026-11-23T22:00\nslot: null\n"
    (found,) = findings(_bottle("liquid: methanol, expires: 2026-11-23") + begins, RULE)
    # 10 min of equilibration, then a cycle of 11 min and 0.7 min: 22:10 + 10 x 11.7 min = 00:07
    assert found.when is not None
    assert found.when.injection == 11


def test_acid_in_an_alcohol_after_a_week() -> None:
    (found,) = findings(_bottle(f"liquid: methanol, {ACID}, opened: 2026-11-10"), RULE)
    assert "good for 7 days" in found.message


@pytest.mark.parametrize("text", [SALT, AMINE, f"{ACID}, x-note: no alcohol"])
def test_silent_for_other_additives_after_two_weeks(text: str) -> None:
    liquid = "acetonitrile" if ACID in text else "methanol"
    assert findings(_bottle(f"liquid: {liquid}, {text}, opened: 2026-11-10"), RULE) == []


@pytest.mark.parametrize("text", [SALT, AMINE])
def test_other_additives_after_a_month(text: str) -> None:
    (found,) = findings(_bottle(f"liquid: methanol, {text}, opened: 2026-10-20"), RULE)
    assert "good for 30 days" in found.message


def test_silent_for_a_bottle_that_the_run_does_not_draw_from() -> None:
    other = "  - {line: modifier-2, liquid: ethanol, expires: 2026-11-01}\n"
    assert findings(_bottle("liquid: methanol") + other, RULE) == []


def test_a_wash_is_drawn_from() -> None:
    wash = f"{_bottle('liquid: methanol')}  - {{line: W1, liquid: ethanol, expires: 2026-11-01}}\n"
    (found,) = findings(wash, RULE)
    assert found.message.startswith("W1 is past its time")


def test_the_lab_sets_the_shelf_life() -> None:
    own = "---\nkind: lab\npolicy: {additive_shelf_life: 30 d}\n"
    text = _bottle(f"liquid: methanol, {ACID}, opened: 2026-11-10")
    assert findings(text + own, RULE) == []


def test_aqueous_buffer_after_three_days() -> None:
    (found,) = findings(_bottle(f"liquid: water, {SALT}, opened: 2026-11-19"), RULE)
    assert "good for 3 days" in found.message


def test_an_undated_additive_is_not_checked() -> None:
    report = judged(_bottle(f"liquid: methanol, {SALT}"), RULE)
    assert report.not_checked[0].missing == ("solvents.bottles[0].opened",)
