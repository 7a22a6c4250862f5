"""Hazard charts for mixed waste and resistance charts of polymers, both from memory."""

from __future__ import annotations

import pytest

from methodlint.fluids.liquids.wetted_materials import (
    MATERIALS,
    attack,
    attacks_anything,
    find_material,
)
from methodlint.fluids.miscibility.incompatible import clashes, classes_of


@pytest.mark.parametrize(
    ("one", "other"),
    [("methanol", "acetonitrile"), ("water", "nitric acid"), ("TFA", "methanol"), ("MeOH", "EtOH")],
)
def test_what_may_meet(one: str, other: str) -> None:
    assert clashes([one], [other]) == ()


@pytest.mark.parametrize(
    ("one", "other", "word"),
    [
        ("nitric acid", "2-propanol", "explodes"),
        ("MeOH", "perchloric acid", "explodes"),
        ("acetic acid", "sodium cyanide", "cyanide"),
        ("DCM", "sodium azide", "azide"),
        ("bleach", "formic acid", "chlorine"),
    ],
)
def test_what_must_not_meet(one: str, other: str, word: str) -> None:
    (clash,) = clashes([one], [other])
    assert word in clash.why
    assert clashes([other], [one])[0].why == clash.why


def test_three_together() -> None:
    assert clashes(["chloroform", "acetone"], ["methanol"]) == ()
    assert clashes(["chloroform", "acetone"], ["sodium hydroxide"])


def test_a_name_nobody_knows_has_no_class() -> None:
    assert classes_of("unobtainium") == frozenset()


def test_materials_by_their_abbreviations() -> None:
    assert find_material("PEEK") is find_material("polyether ether ketone")
    assert find_material("fkm") is not None
    assert find_material("unobtainium") is None


@pytest.mark.parametrize("liquid", ["THF", "dichloromethane", "DMSO", "nitric acid"])
def test_peek_and_its_enemies(liquid: str) -> None:
    material = find_material("PEEK")
    assert material is not None
    assert attack(material, liquid)


@pytest.mark.parametrize("liquid", ["methanol", "water", "acetone"])
def test_peek_and_its_friends(liquid: str) -> None:
    material = find_material("PEEK")
    assert material is not None
    assert attack(material, liquid) is None


def test_a_family_attacks_as_a_whole() -> None:
    material = find_material("FKM")
    assert material is not None
    assert attack(material, "acetone")
    assert attack(material, "ethyl acetate")
    assert attack(material, "n-heptane") is None


def test_steel_stands_everything() -> None:
    assert MATERIALS["stainless steel"].attacked_by == {}


@pytest.mark.parametrize("liquid", ["methanol", "ethanol", "2-propanol", "acetonitrile", "water"])
def test_the_usual_modifiers_attack_nothing(liquid: str) -> None:
    assert not attacks_anything(liquid)


def test_tetrahydrofuran_attacks_something() -> None:
    assert attacks_anything("THF")
