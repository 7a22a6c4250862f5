"""20 mM, 0.1 mL/min and a fifth of the run: common practice, no source. Solid per hour by hand:
concentration x molar mass x flow."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "makeup.deposits-at-bpr"


def _modifier(salt: str, level: str, rest: str = "") -> str:
    return (
        "kind: method\nmobile_phase: {modifier: {liquid: methanol, line: modifier-1, additives: "
        f"[{{additive: {salt}, level: {level}}}]}}}}\n{rest}"
    )


def test_silent_for_twenty_millimolar_of_ammonium_acetate() -> None:
    assert findings(_modifier("ammonium acetate", "20 mM"), RULE) == []


def test_silent_with_makeup_enough_in_front() -> None:
    makeup = "makeup: {liquid: methanol, flow: 0.2 mL/min, tee: before the regulator}\n"
    assert findings(_modifier("ammonium acetate", "30 mM", makeup), RULE) == []


def test_silent_for_acids() -> None:
    assert findings(_modifier("formic acid", "0.5 % v/v"), RULE) == []


def test_makeup_behind_the_regulator_does_not_help() -> None:
    makeup = "makeup: {liquid: methanol, flow: 0.2 mL/min, tee: after the regulator}\n"
    (found,) = findings(_modifier("ammonium acetate", "40 mM", makeup), RULE)
    assert found.grade == "fault"


def test_strong_salt_with_little_liquid_is_a_fault() -> None:
    (found,) = findings(_modifier("ammonium acetate", "40 mM"), RULE)
    assert found.grade == "fault"
    assert found.found is not None
    assert found.found.value > 20.0
    # 40 mol/m3 x 77.1 g/mol x 0.254 mL/min (mean of the programme) x 60 min
    assert "47 mg of it arrive per hour" in found.message


def test_involatile_salt_at_any_level_is_a_fault() -> None:
    assert len(findings(_modifier("sodium formate", "2 mM"), RULE)) == 1


def test_makeup_that_takes_the_solubility_away_is_a_caution() -> None:
    makeup = "makeup: {liquid: acetonitrile, flow: 0.5 mL/min, tee: before the regulator}\n"
    (found,) = findings(_modifier("ammonium formate", "20 mM", makeup), RULE)
    assert found.grade == "caution"
    assert "acetonitrile" in found.message


def test_remedy_was_applied() -> None:
    (found,) = findings(_modifier("ammonium acetate", "40 mM"), RULE)
    assert found.remedy == "add 0.1 mL/min of methanol as makeup upstream of the regulator"


def test_a_salt_without_level_is_not_checked() -> None:
    text = "kind: method\nmobile_phase: {modifier: {liquid: methanol, line: modifier-1, additives: "
    text += "[{additive: ammonium acetate}]}}\n"
    assert judged(text, RULE).not_checked[0].missing == ("level",)
