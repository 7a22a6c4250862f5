"""Peroxides: discard after three months; additives a week, aqueous buffers three days: common practice,
no source. The sound sequence begins on 2026-11-24."""

from __future__ import annotations

from tests.rules.harness import findings, judged

PEROXIDE = "solvent.peroxide-former"
EXPIRED = "solvent.expired"


def _bottle(text: str) -> str:
    return f"kind: solvents\nbottles:\n  - {{line: modifier-1, {text}}}\n"


SALT = "additives: [{additive: ammonium formate, level: 10 mM}]"


# peroxide-former -----------------------------------------------------------------------------


def test_peroxide_silent_for_alcohols_and_methyl_tert_butyl_ether() -> None:
    assert findings(_bottle("liquid: MTBE"), PEROXIDE) == []
    assert findings(_bottle("liquid: methanol"), PEROXIDE) == []


def test_peroxide_silent_for_a_fresh_bottle() -> None:
    assert findings(_bottle("liquid: THF, opened: 2026-10-01"), PEROXIDE) == []


def test_peroxide_inhibited_is_a_note() -> None:
    (found,) = findings(_bottle("liquid: THF, inhibited: true"), PEROXIDE)
    assert found.grade == "note"


def test_peroxide_undated_is_a_stop() -> None:
    (found,) = findings(_bottle("liquid: dioxane, inhibited: false"), PEROXIDE)
    assert found.grade == "stop"
    assert "carries no date of opening" in found.message


def test_peroxide_old_is_a_stop_with_its_age() -> None:
    (found,) = findings(_bottle("liquid: THF, opened: 2026-06-24"), PEROXIDE)
    assert found.found is not None
    assert found.found.value == 153  # calendar: 24 June to 24 November
    assert "no single change" not in found.remedy


# expired -------------------------------------------------------------------------------------


def test_expired_silent_for_a_neat_liquid_without_date() -> None:
    assert findings(_bottle("liquid: methanol"), EXPIRED) == []


def test_expired_silent_on_the_last_day() -> None:
    assert findings(_bottle("liquid: methanol, expires: 2026-11-24"), EXPIRED) == []


def test_expired_silent_for_a_fresh_additive() -> None:
    assert findings(_bottle(f"liquid: methanol, {SALT}, opened: 2026-11-20"), EXPIRED) == []


def test_expired_yesterday_is_a_caution_from_the_first_injection() -> None:
    (found,) = findings(_bottle("liquid: methanol, expires: 2026-11-23"), EXPIRED)
    assert found.grade == "caution"
    assert found.when is not None
    assert found.when.injection == 1


def test_expired_at_midnight_names_the_injection_after_it() -> None:
    begins = "---\nkind: sequence\nbegins: 2026-11-23T22:00\nslot: null\n"
    (found,) = findings(_bottle("liquid: methanol, expires: 2026-11-23") + begins, EXPIRED)
    # 10 min of equilibration, then a cycle of 11 min and 0.7 min: 22:10 + 10 x 11.7 min = 00:07
    assert found.when is not None
    assert found.when.injection == 11


def test_expired_additive_after_a_week() -> None:
    (found,) = findings(_bottle(f"liquid: methanol, {SALT}, opened: 2026-11-10"), EXPIRED)
    assert "good for 7 days" in found.message


def test_expired_the_lab_sets_the_shelf_life() -> None:
    own = "---\nkind: lab\npolicy: {additive_shelf_life: 30 d}\n"
    text = _bottle(f"liquid: methanol, {SALT}, opened: 2026-11-10")
    assert findings(text + own, EXPIRED) == []


def test_expired_aqueous_buffer_after_three_days() -> None:
    (found,) = findings(_bottle(f"liquid: water, {SALT}, opened: 2026-11-19"), EXPIRED)
    assert "good for 3 days" in found.message


def test_expired_an_undated_additive_is_not_checked() -> None:
    report = judged(_bottle(f"liquid: methanol, {SALT}"), EXPIRED)
    assert report.not_checked[0].missing == ("solvents.bottles[0].opened",)
