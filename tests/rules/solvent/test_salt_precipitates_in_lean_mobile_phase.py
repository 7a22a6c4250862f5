"""10 mM below 5 % modifier and 30 mM below 10 %: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings
from tests.rules.solvent.modifiers import modifier, salt

RULE = "solvent.salt-precipitates-in-lean-mobile-phase"


def _from(share: str) -> str:
    return (
        f"programme:\n  - {{time: 0 min, modifier_share: {share} v/v}}\n"
        "  - {time: 5 min, modifier_share: 40 % v/v}\n"
    )


def test_silent_for_ten_millimolar_from_five_per_cent() -> None:
    assert findings(modifier(salt("ammonium formate", "10 mM"), rest=_from("5 %")), RULE) == []


def test_silent_for_twenty_millimolar_from_five_per_cent() -> None:
    assert findings(modifier(salt("ammonium formate", "20 mM"), rest=_from("5 %")), RULE) == []


def test_silent_with_water() -> None:
    both = salt("ammonium formate", "20 mM") + ", " + salt("water", "2 % v/v")
    assert findings(modifier(both, rest=_from("2 %")), RULE) == []


def test_silent_for_acids_and_amines() -> None:
    assert findings(modifier(salt("TFA", "50 mM"), rest=_from("2 %")), RULE) == []


def test_twenty_millimolar_from_two_per_cent_is_a_caution() -> None:
    (found,) = findings(modifier(salt("ammonium formate", "20 mM"), rest=_from("2 %")), RULE)
    assert found.grade == "caution"
    assert found.limit is not None
    assert found.limit.value == pytest.approx(10.0)
    assert found.remedy == "put 2 % v/v water into the modifier"
    assert "where the mobile phase has 2 % modifier" in found.message


def test_forty_millimolar_from_five_per_cent_is_a_caution() -> None:
    (found,) = findings(modifier(salt("ammonium acetate", "40 mM"), rest=_from("5 %")), RULE)
    assert found.limit is not None
    assert found.limit.value == pytest.approx(30.0)
    assert "no single change" not in found.remedy


@pytest.mark.parametrize(
    ("water", "remedy"),
    [("", "put 2 % v/v water into the modifier"), (", {}", "start at 5 % v/v modifier")],
    ids=["no water yet", "water, but too little"],
)
def test_the_salt_behind_an_acid_in_an_isocratic_method(water: str, remedy: str) -> None:
    both = salt("TFA", "50 mM") + ", " + salt("ammonium formate", "20 mM")
    text = modifier(both + water.format(salt("water", "1 % v/v")), rest="programme: []\n")
    text = text.replace("mobile_phase: {", "mobile_phase: {modifier_share: 2 % v/v, ")
    (found,) = findings(text, RULE)
    assert found.at.path[-1] == 1
    assert found.remedy == remedy
