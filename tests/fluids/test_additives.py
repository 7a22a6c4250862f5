"""Additives: names, levels in different units, solubility, what they do to columns and UV cells."""

from __future__ import annotations

import math

import pytest

from methodlint.fluids.additives.known import (
    ADDITIVES,
    concentration,
    find_additive,
    same_level,
    uv_cutoff,
)
from methodlint.fluids.liquids.known import LIQUIDS

NAMES = sorted(ADDITIVES)
KINDS = {"acid", "amine", "ammonium salt", "ammonia", "nonvolatile salt", "ion pair", "water"}
FAMILIES = {liquid.family for liquid in LIQUIDS.values()}


@pytest.mark.parametrize(
    ("text", "name", "kind", "volatile"),
    [
        ("formic acid", "formic acid", "acid", True),
        ("FA", "formic acid", "acid", True),
        ("TFA", "trifluoroacetic acid", "acid", True),
        ("acetic acid", "acetic acid", "acid", True),
        ("phosphoric acid", "phosphoric acid", "acid", False),
        ("DEA", "diethylamine", "amine", True),
        ("TEA", "triethylamine", "amine", True),
        ("isopropylamine", "isopropylamine", "amine", True),
        ("isobutylamine", "isobutylamine", "amine", True),
        ("ammonia", "ammonium hydroxide", "ammonia", True),
        ("NH4OH", "ammonium hydroxide", "ammonia", True),
        ("ammonium formate", "ammonium formate", "ammonium salt", True),
        ("NH4OAc", "ammonium acetate", "ammonium salt", True),
        ("ammonium hydrogencarbonate", "ammonium bicarbonate", "ammonium salt", True),
        ("ammonium fluoride", "ammonium fluoride", "ammonium salt", True),
        ("phosphate", "potassium phosphate", "nonvolatile salt", False),
        ("borate", "sodium borate", "nonvolatile salt", False),
        ("ammonium sulfate", "ammonium sulfate", "nonvolatile salt", False),
        ("sodium acetate", "sodium acetate", "nonvolatile salt", False),
        ("HFBA", "heptafluorobutyric acid", "ion pair", True),
        ("sodium octanesulfonate", "sodium 1-octanesulfonate", "ion pair", False),
        ("water", "water", "water", True),
    ],
)
def test_usual_names(text: str, name: str, kind: str, volatile: bool) -> None:
    additive = find_additive(text)
    assert additive is not None
    assert (additive.name, additive.kind, additive.volatile) == (name, kind, volatile)


@pytest.mark.parametrize("text", ["", "acid", "ammonium", "buffer", "methanol"])
def test_what_is_not_an_additive_is_not_guessed(text: str) -> None:
    assert find_additive(text) is None


@pytest.mark.parametrize("name", NAMES)
def test_records_are_consistent(name: str) -> None:
    additive = ADDITIVES[name]
    assert additive.kind in KINDS
    assert additive.reacts_with <= KINDS | FAMILIES | {"carbon dioxide"}
    assert {*additive.solubility, *additive.solubility_with_water} <= set(LIQUIDS)
    assert all(limit >= 0.0 for limit in additive.solubility.values())
    for points in additive.solubility_with_water.values():
        shares = [share for share, _ in points]
        assert shares == sorted(shares)
        assert shares[0] > 0.0
    assert additive.persistent == (additive.kind in ("acid", "amine", "ion pair"))
    assert additive.sources
    for field in ("uv_shift", "usual_concentration", "usual_volume_share"):
        if getattr(additive, field):
            assert additive.sources.get(field), field


@pytest.mark.parametrize("name", [n for n in NAMES if ADDITIVES[n].molar_mass is not None])
def test_molar_masses(name: str) -> None:
    """Oracle: atomic weights of the chemicals library, by formula."""
    from chemicals import MW, simple_formula_parser
    from chemicals.elements import molecular_weight

    formulas = {
        "formic acid": "CH2O2",
        "acetic acid": "C2H4O2",
        "trifluoroacetic acid": "C2HF3O2",
        "methanesulfonic acid": "CH4O3S",
        "phosphoric acid": "H3PO4",
        "citric acid": "C6H8O7",
        "water": "H2O",
        "diethylamine": "C4H11N",
        "triethylamine": "C6H15N",
        "isopropylamine": "C3H9N",
        "isobutylamine": "C4H11N",
        "butylamine": "C4H11N",
        "diisopropylethylamine": "C8H19N",
        "ethanolamine": "C2H7NO",
        "ammonium hydroxide": "NH3",
        "ammonium formate": "CH5NO2",
        "ammonium acetate": "C2H7NO2",
        "ammonium bicarbonate": "CH5NO3",
        "ammonium carbonate": "CH8N2O3",
        "ammonium fluoride": "NH4F",
        "ammonium trifluoroacetate": "C2H4F3NO2",
        "potassium dihydrogen phosphate": "KH2PO4",
        "dipotassium hydrogen phosphate": "K2HPO4",
        "sodium dihydrogen phosphate": "NaH2PO4",
        "ammonium phosphate": "H9N2PO4",
        "sodium borate": "Na2B4O7",
        "sodium sulfate": "Na2SO4",
        "ammonium sulfate": "H8N2SO4",
        "sodium chloride": "NaCl",
        "sodium acetate": "C2H3O2Na",
        "sodium formate": "CHO2Na",
        "potassium acetate": "C2H3O2K",
        "heptafluorobutyric acid": "C4HF7O2",
        "sodium 1-hexanesulfonate": "C6H13O3SNa",
        "sodium 1-heptanesulfonate": "C7H15O3SNa",
        "sodium 1-octanesulfonate": "C8H17O3SNa",
        "sodium dodecyl sulfate": "C12H25O4SNa",
        "tetrabutylammonium bromide": "C16H36NBr",
    }
    assert MW("7732-18-5") == pytest.approx(18.015, abs=0.01)
    expected = molecular_weight(simple_formula_parser(formulas[name])) / 1e3
    assert ADDITIVES[name].molar_mass == pytest.approx(expected, rel=1e-4)


# 1 mL of formic acid (1.220 g/mL, 46.03 g/mol) per litre is 26.5 mM: arithmetic
@pytest.mark.parametrize(
    ("a", "b", "same"),
    [
        ("0.1 % v/v formic acid", "26 mM", True),
        ("0.1% formic acid", "26 mM formic acid", True),
        ("0.1 vol% formic acid", "1 mL/L formic acid", True),
        ("0.1 % v/v formic acid in methanol", "26.5 mM", True),
        ("0.1 % v/v formic acid", "20 mM", False),
        ("0.1 % v/v formic acid", "0.1 % v/v TFA", False),
        ("20 mM", "20 mmol/L", True),
        ("20 mM", "0.02 M", True),
        ("20 mM", "20 mol/m3", True),
        ("20 mM ammonium formate", "1.26 g/L", True),
        ("10 mM ammonium acetate", "0.077 % w/v", True),
        ("10 mM", "20 mM", False),
        ("0.1 % v/v DEA", "9.65 mM", True),
        # 28 % ammonia, 0.899 g/mL: 14.8 mol/L
        ("0.1 % v/v ammonium hydroxide", "14.8 mM", True),
        # nothing to convert with
        ("0.1 %", "26 mM", None),
        ("0.1 % v/v", "26 mM", None),
        ("0.1 % w/w formic acid", "26 mM", None),
        ("0.1 % v/v ammonium acetate", "13 mM", None),
        ("a little formic acid", "26 mM", None),
        ("10-20 mM", "20 mM", None),
        ("10 to 20 mM", "20 mM", None),
        ("< 20 mM", "20 mM", None),
    ],
)
def test_levels_in_different_units(a: str, b: str, same: bool | None) -> None:
    assert same_level(a, b) is same
    assert same_level(b, a) is same


def test_level_with_the_additive_named_apart() -> None:
    assert same_level("0.1 % v/v", "26 mM", additive="FA") is True
    assert concentration("0.1 % v/v", "formic acid") == pytest.approx(26.5, rel=0.01)
    assert concentration("20 mM") == pytest.approx(20.0)
    assert concentration("0.1 % v/v") is None


# Ammonium acetate in acetonitrile with water: 20 mM at 90 %, 10 mM at 95 %, none in neat (secondary: practice
# column after a published figure); in methanol 7.9 g per 100 mL at 15 C (handbook, from memory); the rest
# common practice, no source
@pytest.mark.parametrize(
    ("salt", "liquid", "water", "limit"),
    [
        ("ammonium acetate", "MeCN", 0.0, 0.0),
        ("ammonium acetate", "MeCN", 0.05, 10.0),
        ("ammonium acetate", "MeCN", 0.075, 15.0),
        ("ammonium acetate", "MeCN", 0.10, 20.0),
        ("ammonium acetate", "MeCN", 0.5, None),
        ("ammonium acetate", "methanol", 0.0, 1000.0),
        ("ammonium formate", "methanol", 0.0, 50.0),
        ("ammonium formate", "methanol", 0.02, 50.0),
        ("ammonium formate", "2-propanol", 0.0, 5.0),
        ("ammonium formate", "ethanol", 0.0, 10.0),
        ("ammonium formate", "MeCN", 0.0, 1.0),
        ("ammonium formate", "n-heptane", 0.0, 0.0),
        ("ammonium bicarbonate", "methanol", 0.0, None),
        ("ammonium fluoride", "methanol", 0.0, None),
        ("potassium phosphate", "methanol", 0.3, 0.0),
        ("potassium phosphate", "acetonitrile", 0.1, 0.0),
        ("potassium phosphate", "methanol", 0.6, None),
        ("formic acid", "methanol", 0.05, math.inf),
        ("sodium 1-octanesulfonate", "methanol", 0.0, None),
        ("ammonium formate", "squalane", 0.0, None),
    ],
)
def test_solubility_limits(salt: str, liquid: str, water: float, limit: float | None) -> None:
    additive = find_additive(salt)
    assert additive is not None
    found = additive.solubility_limit(liquid, water)
    assert found == (limit if limit is None else pytest.approx(limit))


def test_twenty_millimolar_in_methanol_never_exceeds_a_limit() -> None:
    """20 mM ammonium formate in methanol with 2 % water is published practice (Losacco et al. 2020,
    J. Chromatogr. A 1616, 460780, secondary)."""
    for salt in ("ammonium formate", "ammonium acetate"):
        for water in (0.0, 0.02, 0.05):
            limit = ADDITIVES[salt].solubility_limit("methanol", water)
            assert limit is not None
            assert limit >= 20.0


def test_a_water_share_out_of_range_is_refused() -> None:
    with pytest.raises(ValueError, match="water share"):
        ADDITIVES["ammonium formate"].solubility_limit("methanol", 1.5)


def test_reactions() -> None:
    """Carbamate of primary and secondary amines, salt of amine and acid, ester on standing: common practice."""
    assert "carbon dioxide" in ADDITIVES["diethylamine"].reacts_with
    assert "carbon dioxide" not in ADDITIVES["triethylamine"].reacts_with
    assert {"acid", "ketone", "ester", "chlorinated"} <= ADDITIVES["isopropylamine"].reacts_with
    assert {"amine", "alcohol"} <= ADDITIVES["formic acid"].reacts_with
    assert not ADDITIVES["ammonium formate"].reacts_with


# cutoffs of chromatography tables and shifts of 10 to 25 nm by amines and formate: from memory
@pytest.mark.parametrize(
    ("liquid", "additives", "nanometres"),
    [
        ("methanol", (), 205.0),
        ("methanol", ("ammonium formate",), 215.0),
        ("methanol", ("DEA",), 225.0),
        ("methanol", ("DEA", "ammonium formate", "water"), 225.0),
        ("IPA", ("water",), 205.0),
        ("acetone", ("formic acid",), 335.0),
    ],
)
def test_uv_cutoff_with_additives(
    liquid: str, additives: tuple[str, ...], nanometres: float
) -> None:
    assert uv_cutoff(liquid, additives) == pytest.approx(nanometres * 1e-9)


@pytest.mark.parametrize(
    ("liquid", "additives"),
    [("acetic acid", ()), ("squalane", ()), ("methanol", ("unheard of",)), ("methanol", ("SDS",))],
)
def test_unknown_cutoffs_stay_unknown(liquid: str, additives: tuple[str, ...]) -> None:
    assert uv_cutoff(liquid, additives) is None
