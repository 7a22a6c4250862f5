"""A slip in the name of a liquid: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in

RULE = "document.liquid-misspelt"


@pytest.mark.parametrize(
    "text",
    [
        "injection: {diluent: ethanol}",
        "injection: {diluent: EtOH}",
        "injection: {diluent: hexanes}",
        "injection: {diluent: 2-butanol}",
        "injection: {diluent: isobutanol}",
        "injection: {diluent: methyl acetate}",
        "injection: {diluent: honey extract}",
        "injection: {diluent: MTB}",
        "injection: {diluent: <liquid>}",
        "mobile_phase: {modifier: etanol}",
    ],
    ids=[
        "known",
        "abbreviation",
        "mixed isomers of the trade",
        "an isomer",
        "another liquid",
        "another liquid two letters off",
        "no liquid by name",
        "a short name has many neighbours",
        "left to be filled in",
        "a modifier is told by phase.no-model-for-modifier",
    ],
)
def test_silent(text: str) -> None:
    assert found_in(f"kind: method\n{text}\n", RULE) == []


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("kind: method\ninjection: {diluent: etanol}", "ethanol"),
        ("kind: method\ninjection: {diluent: {liquid: acetonitril}}", "acetonitrile"),
        ("kind: column\nforbidden_liquids: [toluene, dichlormethane]", "dichloromethane"),
        ("kind: column\nstorage_liquid: metanol", "methanol"),
    ],
)
def test_the_name_that_is_meant_is_offered(text: str, meant: str) -> None:
    [found] = found_in(f"{text}\n", RULE)
    assert found.grade == "caution"
    assert f"did you mean {meant}" in found.remedy or f"write '{meant}'" in found.remedy
    assert found.at.place.line == 2


def test_a_name_is_told_once_in_a_document() -> None:
    lines = "".join(
        f"  - {{kind: sample, sample: s{n}, plate: 1, well: A{n}, diluent: etanol}}\n"
        for n in range(1, 6)
    )
    assert len(found_in(f"kind: sequence\nlines:\n{lines}", RULE)) == 1


@pytest.mark.parametrize("key", ["forbidden_liquids", "allowed_liquids"])
def test_a_word_on_a_list_that_names_no_liquid_and_no_class(key: str) -> None:
    [found] = found_in(f"kind: column\n{key}: [ketones, aggressive solvents]\n", RULE)
    assert found.at.path == (key, 1)
    assert "aggressive solvents" in found.message
    known = "alcohols, ethers, chlorinated solvents, pyridine, NMP, THF, aqueous buffers"
    assert found_in(f"kind: column\n{key}: [{known}]\n", RULE) == []


def test_a_temperature_limit_for_a_class_of_liquids() -> None:
    text = "kind: column\ntemperature_limits: [{{temperature: 40 degC, liquids: [{}]}}]\n"
    assert found_in(text.format("alcohols"), RULE) == []
    [found] = found_in(text.format("strong stuff"), RULE)
    assert found.at.path == ("temperature_limits", 0, "liquids", 0)
