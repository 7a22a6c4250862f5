"""Amines and CO2: Pollet and Liotta 2016; usual levels 0.1 to 0.5 % v/v of diethylamine and 0.1 % of
acids: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "solvent.additive-reacts"


def _modifier(*additives: tuple[str, str], liquid: str = "methanol", rest: str = "") -> str:
    listed = ", ".join(f"{{additive: {name}, level: {level}}}" for name, level in additives)
    return (
        f"kind: method\nmobile_phase: {{modifier: {{liquid: {liquid}, line: modifier-1, "
        f"additives: [{listed}]}}}}\n{rest}"
    )


@pytest.mark.parametrize("level", ["0.1 % v/v", "0.5 % v/v"])
@pytest.mark.parametrize("name", ["diethylamine", "isopropylamine"])
def test_silent_for_customary_amines_in_alcohol(name: str, level: str) -> None:
    assert findings(_modifier((name, level)), RULE) == []


def test_silent_for_ammonia_in_methanol() -> None:
    assert findings(_modifier(("ammonia", "25 mM")), RULE) == []


def test_silent_for_formic_acid_in_methanol() -> None:
    assert findings(_modifier(("formic acid", "0.1 % v/v")), RULE) == []


def test_silent_for_ammonium_salt_with_acid() -> None:
    assert findings(_modifier(("ammonium formate", "10 mM"), ("formic acid", "26 mM")), RULE) == []


def test_silent_for_triethylamine_and_co2() -> None:
    assert findings(_modifier(("TEA", "1 % v/v")), RULE) == []


def test_amine_with_acid_is_one_caution() -> None:
    (found,) = findings(_modifier(("DEA", "0.1 % v/v"), ("TFA", "0.1 % v/v")), RULE)
    assert found.grade == "caution"
    assert "form a salt" in found.message
    assert "ammonium salt" in found.remedy


def test_amine_in_the_modifier_with_acid_in_the_makeup() -> None:
    makeup = "makeup: {liquid: methanol, additives: [{additive: formic acid, level: 0.1 % v/v}], "
    makeup += "flow: 0.2 mL/min, tee: after the regulator}\n"
    assert len(findings(_modifier(("DEA", "0.1 % v/v"), rest=makeup), RULE)) == 1


def test_amine_with_a_ketone_or_ester_as_diluent() -> None:
    text = _modifier(("isopropylamine", "0.2 % v/v")) + "---\nkind: sequence\ndiluent: EtOAc\n"
    (found,) = findings(text, RULE)
    assert "ethyl acetate" in found.message


def test_much_amine_takes_up_co2() -> None:
    (found,) = findings(_modifier(("DEA", "2 % v/v")), RULE)
    assert "carbamate" in found.message


def test_much_acid_esterifies() -> None:
    (found,) = findings(_modifier(("acetic acid", "5 % v/v")), RULE)
    assert "ester in methanol" in found.message
