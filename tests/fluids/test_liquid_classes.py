"""Classes of liquids on cards: organic nomenclature (IUPAC, Blue Book 2013), general chemistry."""

from __future__ import annotations

import pytest

from methodlint.fluids.liquids.liquid_classes import is_in, known_on_a_list, members


@pytest.mark.parametrize(
    ("word", "inside", "outside"),
    [
        ("alcohols", "methanol", "acetone"),
        ("alcohol", "IPA", "water"),
        ("ketones", "2-propanone", "methanol"),
        ("ethers", "THF", "ethyl acetate"),
        ("Ethers", "MTBE", "ethanol"),
        ("esters", "ethyl acetate", "acetonitrile"),
        ("chlorinated solvents", "DCM", "toluene"),
        ("halogenated solvents", "chloroform", "n-heptane"),
        ("aromatics", "toluene", "n-hexane"),
        ("aromatic hydrocarbons", "toluene", "cyclohexane"),
        ("alkanes", "n-heptane", "toluene"),
        ("hydrocarbons", "toluene", "methanol"),
        ("nitriles", "MeCN", "DMF"),
        ("amides", "DMF", "DMSO"),
        ("sulfoxides", "DMSO", "DMF"),
        ("aqueous", "water", "methanol"),
        ("polar aprotic solvents", "DMSO", "methanol"),
        ("ketones", "methyl ethyl ketone", "pyridine"),
        ("fluorinated", "hexafluoroisopropanol", "2-propanol"),
    ],
)
def test_members_of_a_class(word: str, inside: str, outside: str) -> None:
    assert known_on_a_list(word)
    assert is_in(inside, (word,))
    assert not is_in(outside, (word,))


def test_a_name_is_one_liquid_under_all_its_names_and_no_class() -> None:
    assert is_in("isopropanol", ("2-propanol",))
    assert is_in("Moonshine", ("moonshine",))
    assert not is_in("ethanol", ("methanol", "moonshine"))
    # A liquid's name that ends like a class names one liquid.
    assert members("diethyl ether") == ("diethyl ether",)
    assert members("acetone") == ("acetone",)


def test_a_class_names_more_than_one() -> None:
    assert {"methanol", "ethanol", "2-propanol"} <= set(members("alcohols"))


@pytest.mark.parametrize("word", ["aggressive solvents", "chlorinatd", "", "moonshine", "solvents"])
def test_what_nobody_knows(word: str) -> None:
    assert not known_on_a_list(word)
    assert members(word) == ()
