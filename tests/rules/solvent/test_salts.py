"""Salts in the modifier, three rules. Limits: ammonium acetate 20 mM at 90 %, 10 mM at 95 %, none in neat
acetonitrile (a practice column after a published figure, secondary); methanol at least 50 mM, no
phosphate at 70 % organic and above, 10 mM and 30 mM in lean mobile phases: common practice, no
source. Solid of one day by hand: 5 mM x 136.09 g/mol (standard atomic weights) x 0.5 mL/min x 8 h =
0.163 g."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

SOLUBLE = "solvent.salt-not-soluble"
VOLATILE = "solvent.salt-not-volatile"
LEAN = "solvent.salt-precipitates-in-lean-mobile-phase"


def _modifier(additives: str, liquid: str = "liquid: methanol", rest: str = "") -> str:
    return (
        f"kind: method\nmobile_phase: {{modifier: {{{liquid}, line: modifier-1, additives: "
        f"[{additives}]}}}}\n{rest}"
    )


def _salt(name: str, level: str) -> str:
    return f"{{additive: {name}, level: {level}}}"


def _from(share: str) -> str:
    return (
        f"programme:\n  - {{time: 0 min, modifier_share: {share} v/v}}\n"
        "  - {time: 5 min, modifier_share: 40 % v/v}\n"
    )


# salt-not-soluble ----------------------------------------------------------------------------


@pytest.mark.parametrize("level", ["10 mM", "20 mM", "30 mM"])
def test_soluble_silent_in_methanol(level: str) -> None:
    assert findings(_modifier(_salt("ammonium formate", level)), SOLUBLE) == []


def test_soluble_silent_for_liquid_additives() -> None:
    both = _salt("DEA", "0.2 % v/v") + ", " + _salt("water", "5 % v/v")
    assert findings(_modifier(both), SOLUBLE) == []


def test_soluble_acetate_in_acetonitrile_is_a_fault() -> None:
    (found,) = findings(_modifier(_salt("NH4OAc", "5 mM"), "liquid: ACN"), SOLUBLE)
    assert found.grade == "fault"
    assert "acetonitrile holds none" in found.message
    assert "no single change" not in found.remedy


def test_soluble_phosphate_in_mostly_organic_is_a_fault() -> None:
    blend = "liquids: [{liquid: methanol, share: 80 %}, {liquid: water, share: 20 %}]"
    (found,) = findings(_modifier(_salt("KH2PO4", "5 mM"), blend), SOLUBLE)
    assert found.grade == "fault"


def test_soluble_in_a_blend_is_an_estimate_and_a_caution() -> None:
    blend = "liquids: [{liquid: methanol, share: 20 %}, {liquid: acetonitrile, share: 80 %}]"
    (found,) = findings(_modifier(_salt("ammonium formate", "10 mM"), blend), SOLUBLE)
    assert found.grade == "caution"
    assert "estimate" in found.message


def test_soluble_an_unknown_additive_is_not_checked() -> None:
    report = judged(_modifier(_salt("ammonium unobtainate", "5 mM")), SOLUBLE)
    assert "not a known additive" in report.not_checked[0].reason


# salt-not-volatile ---------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["ammonium formate", "formic acid", "DEA", "ammonium bicarbonate"])
def test_volatile_silent_for_volatile_additives(name: str) -> None:
    assert findings(_modifier(_salt(name, "10 mM")), VOLATILE) == []


def test_volatile_silent_for_washes_that_never_enter_the_flow_path() -> None:
    bottles = (
        "kind: solvents\nbottles:\n  - {line: modifier-1, liquid: methanol}\n  - line: seal-wash\n"
    )
    bottles += "    liquid: water\n    additives: [{additive: sodium acetate, level: 10 mM}]\n"
    assert findings(bottles, VOLATILE) == []


def test_volatile_phosphate_with_uv_only_is_a_caution() -> None:
    (found,) = findings(_modifier(_salt("KH2PO4", "5 mM")), VOLATILE)
    assert found.grade == "caution"


def test_volatile_phosphate_with_a_mass_spectrometer_is_a_fault() -> None:
    spectrometer = "detectors: [{type: MS, source: ESI, polarity: positive}]\n"
    (found,) = findings(_modifier(_salt("KH2PO4", "5 mM"), rest=spectrometer), VOLATILE)
    assert found.grade == "fault"


def test_volatile_solid_of_a_day_against_the_figure_by_hand() -> None:
    """2.5 mL/min with 20 % of modifier are 0.5 mL/min."""
    rest = "programme: []\nflow: 2.5 mL/min\n"
    text = _modifier(_salt("KH2PO4", "5 mM"), rest=rest)
    text = text.replace("mobile_phase: {", "mobile_phase: {modifier_share: 20 % v/v, ")
    (found,) = findings(text, VOLATILE)
    assert "leaves 163 mg in eight hours" in found.message


@pytest.mark.parametrize(
    "flow",
    ["flow: 0.5 mL/min", "programme: [{time: 0 min, flow: 0 mL/min}, {time: 0.01 min, flow: 0.5 mL/min}]"],
    ids=["steady", "from the first second on"],
)  # fmt: skip
def test_volatile_solid_of_a_day_that_the_makeup_brings(flow: str) -> None:
    """The same 5 mM at 0.5 mL/min; what a programme begins with does not last the day."""
    makeup = f"{{liquid: methanol, {flow}, additives: [{_salt('KH2PO4', '5 mM')}]}}"
    (found,) = findings(f"kind: method\nmakeup: {makeup}\n", VOLATILE)
    assert "at 0.5 mL/min leaves 163 mg in eight hours" in found.message


def test_volatile_salt_in_the_bottle_of_the_makeup() -> None:
    """The bottle says what the makeup is where the method names none; 5 mM at 0.5 mL/min again."""
    bottles = f"""---
kind: solvents
bottles:
  - {{line: modifier-1, liquid: methanol}}
  - {{line: makeup, liquid: methanol, additives: [{_salt("KH2PO4", "5 mM")}]}}
  - {{line: seal-wash, liquid: water}}
"""
    (found,) = findings(f"kind: method\nmakeup: {{flow: 0.5 mL/min}}\n{bottles}", VOLATILE)
    assert found.at.document.kind == "solvents"
    assert found.at.path == ("bottles", 1, "additives", 0)
    assert "leaves 163 mg in eight hours" in found.message


def test_volatile_remedy_was_applied() -> None:
    (found,) = findings(_modifier(_salt("sodium formate", "5 mM")), VOLATILE)
    assert found.remedy == "use 10 mM ammonium formate in its place"


def test_volatile_explains_the_deposit_at_the_regulator() -> None:
    (found,) = findings(
        _modifier(_salt("sodium formate", "5 mM")), VOLATILE, "makeup.deposits-at-bpr"
    )
    assert [child.rule for child in found.because] == ["makeup.deposits-at-bpr"]


# salt-precipitates-in-lean-mobile-phase ------------------------------------------------------


def test_lean_silent_for_ten_millimolar_from_five_per_cent() -> None:
    assert findings(_modifier(_salt("ammonium formate", "10 mM"), rest=_from("5 %")), LEAN) == []


def test_lean_silent_for_twenty_millimolar_from_five_per_cent() -> None:
    assert findings(_modifier(_salt("ammonium formate", "20 mM"), rest=_from("5 %")), LEAN) == []


def test_lean_silent_with_water() -> None:
    both = _salt("ammonium formate", "20 mM") + ", " + _salt("water", "2 % v/v")
    assert findings(_modifier(both, rest=_from("2 %")), LEAN) == []


def test_lean_silent_for_acids_and_amines() -> None:
    assert findings(_modifier(_salt("TFA", "50 mM"), rest=_from("2 %")), LEAN) == []


def test_lean_twenty_millimolar_from_two_per_cent_is_a_caution() -> None:
    (found,) = findings(_modifier(_salt("ammonium formate", "20 mM"), rest=_from("2 %")), LEAN)
    assert found.grade == "caution"
    assert found.limit is not None
    assert found.limit.value == pytest.approx(10.0)
    assert found.remedy == "put 2 % v/v water into the modifier"
    assert "where the mobile phase has 2 % modifier" in found.message


def test_lean_forty_millimolar_from_five_per_cent_is_a_caution() -> None:
    (found,) = findings(_modifier(_salt("ammonium acetate", "40 mM"), rest=_from("5 %")), LEAN)
    assert found.limit is not None
    assert found.limit.value == pytest.approx(30.0)
    assert "no single change" not in found.remedy
