"""Polymers and liquids: resistance charts (from memory); common practice."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "solvent.attacks-wetted-parts"


def _lab(liquid: str, material: str, rest: str = "") -> str:
    return (
        f"kind: method\nmobile_phase: {{modifier: {{liquid: {liquid}, line: modifier-1}}}}\n{rest}"
        f"---\nkind: instrument\nwetted_materials: {{column tube: {material}}}\n"
    )


@pytest.mark.parametrize("material", ["stainless steel", "PTFE", "FFKM", "sapphire"])
def test_silent_for_inert_materials(material: str) -> None:
    assert findings(_lab("THF", material), RULE) == []


@pytest.mark.parametrize("liquid", ["methanol", "ethanol", "acetonitrile", "IPA"])
def test_silent_for_peek_and_the_usual_modifiers(liquid: str) -> None:
    assert findings(_lab(liquid, "PEEK"), RULE) == []


@pytest.mark.parametrize("liquid", ["THF", "DCM", "DMSO"])
def test_peek_with_its_enemies_is_a_stop(liquid: str) -> None:
    (found,) = findings(_lab(liquid, "PEEK"), RULE)
    assert found.grade == "stop"
    assert "polyether ether ketone" in found.message
    assert "another liquid than" in found.remedy
    assert "stainless" not in found.remedy, "a material is a fact of the card"
    assert found.candidates == ()


def test_as_a_diluent_only_it_is_a_caution() -> None:
    text = _lab("methanol", "PEEK") + "---\nkind: sequence\ndiluent: DCM\n"
    (found,) = findings(text, RULE)
    assert found.grade == "caution"


def test_an_unknown_material_is_not_checked() -> None:
    report = judged(_lab("methanol", "unobtainium"), RULE)
    assert report.not_checked[0].missing == ("instrument.wetted_materials.column tube",)


GONE = (
    "---\nkind: instrument\nwetted_materials: {tubes: null, pump seals: null, valve rotor: null, "
)
GONE += "cell window: null}\n"


def _without_materials(liquid: str) -> str:
    phase = f"mobile_phase: {{modifier: {{liquid: {liquid}, line: modifier-1}}}}\n"
    return f"kind: method\n{phase}{GONE}"


def test_silent_for_liquids_that_attack_nothing_whatever_the_materials() -> None:
    report = judged(_without_materials("ethanol"), RULE)
    assert (report.findings, report.not_checked) == ([], [])


def test_materials_that_are_not_given_are_not_checked() -> None:
    report = judged(_without_materials("THF"), RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("instrument.wetted_materials",)


def _flush(liquid: str, more: str = "") -> str:
    sample = "{kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}"
    step = f"{{kind: flush, liquid: {liquid}, duration: 10 min{more}}}"
    return _lab("methanol", "PEEK") + f"---\nkind: sequence\nlines:\n  - {sample}\n  - {step}\n"


def test_silent_for_a_flush_that_peek_withstands() -> None:
    assert findings(_flush("ethanol"), RULE) == []


@pytest.mark.parametrize("more", ["", ", column_bypassed: true"])
def test_a_flush_wets_every_part_past_the_column_too(more: str) -> None:
    (found,) = findings(_flush("dichloromethane", more), RULE)
    assert found.grade == "stop"
    assert "dichloromethane flows through" in found.message
    assert [at.path for at in found.also] == [("lines", 1, "liquid")]


def _amine(material: str, additive: str = "diethylamine", liquid: str = "2-propanol") -> str:
    added = f"additives: [{{additive: {additive}, level: 0.2 % v/v}}]"
    lab = _lab(liquid, material).replace("line: modifier-1", f"line: modifier-1, {added}")
    return lab.replace("{column tube", "{valve rotor: PEEK, column tube")


@pytest.mark.parametrize("material", ["PEEK", "UHMWPE", "FFKM", "PTFE", "EPDM"])
def test_silent_for_polymers_that_withstand_amines_and_co2(material: str) -> None:
    assert findings(_amine(material), RULE) == []


def test_silent_for_polyimide_and_an_acid() -> None:
    assert findings(_amine("polyimide", "formic acid"), RULE) == []


@pytest.mark.parametrize(
    ("material", "says"),
    [("FKM", "make it brittle (second-hand)"), ("polyimide", "break it down (unverified)")],
)
def test_an_amine_through_fkm_or_polyimide_is_a_caution(material: str, says: str) -> None:
    (found,) = findings(_amine(material), RULE)
    assert found.grade == "caution"
    assert says in found.message


def test_nitrile_rubber_blisters_with_co2() -> None:
    (found,) = findings(_lab("2-propanol", "NBR"), RULE)
    assert found.grade == "caution"
    assert "blisters it when the pressure falls quickly" in found.message


def test_methanol_is_doubtful_for_fkm_and_says_that_it_is_unverified() -> None:
    """Charts rate standard grades as unsatisfactory, others as satisfactory (unverified)."""
    (found,) = findings(_lab("methanol", "FKM"), RULE)
    assert found.grade == "caution"
    assert "(unverified)" in found.message
    alone = "---\nkind: solvents\nbottles: [{line: modifier-1, liquid: 2-propanol}]\n"
    alone += "---\nkind: sequence\nlines: [{kind: sample, sample: x, well: A1}]\n"
    assert findings(_lab("2-propanol", "FKM") + alone, RULE) == []
