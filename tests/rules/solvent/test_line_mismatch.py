"""Levels in different units, by hand: 0.1 % v/v of formic acid, 1.22 g/mL over 46.03 g/mol (CRC Handbook
of Chemistry and Physics), are 26.5 mM.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "solvent.line-mismatch"


def _bottles(*lines: str) -> str:
    return "kind: solvents\nbottles:\n" + "".join(f"  - {{{line}}}\n" for line in lines)


def _method(modifier: str) -> str:
    return f"kind: method\nmobile_phase: {{modifier: {{{modifier}}}}}\n---\n"


@pytest.mark.parametrize(
    ("one", "other"),
    [("IPA", "2-propanol"), ("isopropanol", "IPA"), ("MeCN", "ACN"), ("MeOH", "Methanol")],
)
def test_silent_for_synonyms(one: str, other: str) -> None:
    text = _method(f"liquid: {one}, line: modifier-1")
    assert findings(text + _bottles(f"line: modifier-1, liquid: {other}"), RULE) == []


def test_silent_for_one_level_in_two_units() -> None:
    def acid(level: str) -> str:
        return f"additives: [{{additive: formic acid, level: {level}}}]"

    text = _method(f"liquid: MeOH, line: modifier-1, {acid('0.1 % v/v')}")
    assert findings(text + _bottles(f"line: modifier-1, liquid: MeOH, {acid('26 mM')}"), RULE) == []
    (found,) = findings(text + _bottles(f"line: modifier-1, liquid: MeOH, {acid('52 mM')}"), RULE)
    assert "another level of formic acid" in found.message


def test_another_liquid_is_a_fault() -> None:
    (found,) = findings(_method("liquid: MeOH, line: modifier-2").rpartition("---")[0], RULE)
    assert found.grade == "fault"
    assert "holds ethanol" in found.message
    assert found.also[0].document.kind == "solvents"
    assert found.remedy == "draw from modifier-1, which holds it"


def test_a_missing_additive_is_a_fault() -> None:
    salt = "additives: [{additive: ammonium formate, level: 10 mM}]"
    text = _method(f"liquid: MeOH, line: modifier-1, {salt}")
    (found,) = findings(text + _bottles("line: modifier-1, liquid: MeOH"), RULE)
    assert "additive ammonium formate on one side only" in found.message


def test_without_a_bottle_is_a_fault() -> None:
    (found,) = findings(_method("liquid: MeOH, line: modifier-7").rpartition("---")[0], RULE)
    assert "no bottle is on line modifier-7" in found.message
    assert found.remedy == "draw from modifier-1, which holds it"


def test_of_the_makeup_is_compared_too() -> None:
    text = "kind: method\nmakeup: {liquid: ethanol, line: makeup, flow: 0.2 mL/min}\n"
    (found,) = findings(text, RULE)
    assert found.at.path[0] == "makeup"


def test_that_is_not_named_is_not_checked() -> None:
    text = _method("liquid: MeOH, line: null").rpartition("---")[0]
    assert judged(text, RULE).not_checked[0].missing == ("method.mobile_phase.modifier.line",)
