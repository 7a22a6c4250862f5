"""Ammonium acetate 20 mM at 90 %, 10 mM at 95 %, none in neat acetonitrile (a practice column after a
published figure, secondary); methanol at least 50 mM, no phosphate at 70 % organic and above: common
practice, no source.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.solvent.modifiers import modifier, salt

RULE = "solvent.salt-not-soluble"


def _bottle(line: str) -> str:
    """Write 5 mM acetate in acetonitrile, beside the methanol that the method uses."""
    acetate = f"liquid: acetonitrile, additives: [{salt('ammonium acetate', '5 mM')}]"
    bottles = f"  - {{line: modifier-1, liquid: methanol}}\n  - {{line: {line}, {acetate}}}\n"
    return f"kind: solvents\nbottles:\n{bottles}"


@pytest.mark.parametrize("level", ["10 mM", "20 mM", "30 mM"])
def test_silent_in_methanol(level: str) -> None:
    assert findings(modifier(salt("ammonium formate", level)), RULE) == []


def test_silent_for_liquid_additives() -> None:
    both = salt("DEA", "0.2 % v/v") + ", " + salt("water", "5 % v/v")
    assert findings(modifier(both), RULE) == []


def test_silent_for_a_bottle_that_this_method_does_not_draw_from() -> None:
    assert findings(_bottle("modifier-2"), RULE) == []


def test_acetate_in_acetonitrile_is_a_fault() -> None:
    (found,) = findings(modifier(salt("NH4OAc", "5 mM"), "liquid: ACN"), RULE)
    assert found.grade == "fault"
    assert "acetonitrile holds none" in found.message
    assert "no single change" not in found.remedy


def test_phosphate_in_mostly_organic_is_a_fault() -> None:
    blend = "liquids: [{liquid: methanol, share: 80 %}, {liquid: water, share: 20 %}]"
    (found,) = findings(modifier(salt("KH2PO4", "5 mM"), blend), RULE)
    assert found.grade == "fault"


def test_in_a_blend_is_an_estimate_and_a_caution() -> None:
    blend = "liquids: [{liquid: methanol, share: 20 %}, {liquid: acetonitrile, share: 80 %}]"
    (found,) = findings(modifier(salt("ammonium formate", "10 mM"), blend), RULE)
    assert found.grade == "caution"
    assert "estimate" in found.message


def test_an_unknown_additive_is_not_checked() -> None:
    report = judged(modifier(salt("ammonium unobtainate", "5 mM")), RULE)
    assert "not a known additive" in report.not_checked[0].reason


def test_a_wash_is_looked_at_too() -> None:
    (found,) = findings(_bottle("seal-wash"), RULE)
    assert (found.grade, found.at.path[:2]) == ("fault", ("bottles", 1))
