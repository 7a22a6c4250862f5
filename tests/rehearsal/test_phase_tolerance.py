"""What phases bear.

Tetrahydrofuran and chloroform swell or dissolve coated selectors: Polym. J. 38, 91; J. Chromatogr.
A 2014, 1363, 51. Every other entry: common practice, no source.
"""

from __future__ import annotations

import pytest

from methodlint.documents.kinds.base import AdditiveLevel
from methodlint.documents.kinds.column import Column
from methodlint.fluids.liquids.known import LIQUIDS
from methodlint.rehearsal.plan.additive_tolerance import additive_limit, level_in
from methodlint.rehearsal.plan.phase_tolerance import DISSOLVE_COATED, replacement, tolerance


def card(**figures: object) -> Column:
    return Column.model_validate({"kind": "column", "phase": "coated polysaccharide", **figures})


@pytest.mark.parametrize("liquid", ["THF", "tetrahydrofuran", "CHCl3", "chloroform"])
def test_published_liquids_are_forbidden_on_coated_phases(liquid: str) -> None:
    assert tolerance(card(), liquid).verdict == "forbidden"
    assert tolerance(card(phase="immobilised polysaccharide"), liquid).verdict == "allowed"


def test_every_name_of_the_list_is_a_known_liquid() -> None:
    assert set(LIQUIDS) >= DISSOLVE_COATED


def test_nothing_is_both_forbidden_and_safe() -> None:
    families = {LIQUIDS[name].family for name in DISSOLVE_COATED}
    assert not families & {"alcohol", "alkane", "nitrile"}


def test_what_no_list_holds_is_not_known() -> None:
    for liquid in ("MTBE", "1,4-dioxane", "moonshine"):
        assert tolerance(card(), liquid).verdict == "not known"


def test_the_card_comes_first_under_any_name() -> None:
    own = card(allowed_liquids=["DMSO", "EtOH"], forbidden_liquids=["isopropanol", "moonshine"])
    assert tolerance(own, "dimethyl sulfoxide").verdict == "allowed"
    assert tolerance(own, "2-propanol").verdict == "forbidden"
    assert tolerance(own, "Moonshine").verdict == "forbidden"
    assert next(replacement(own, "THF")) == "ethanol"


def test_a_liquid_on_both_lists_of_a_card_is_forbidden() -> None:
    own = card(allowed_liquids=["ethanol"], forbidden_liquids=["ethanol"])
    assert tolerance(own, "ethanol").verdict == "forbidden"


def test_additive_limits_in_the_units_of_each_other() -> None:
    # 0.5 % v/v trifluoroacetic acid: 5 mL/L x 1.49 g/mL / 114.02 g/mol = 65 mM (density: handbook,
    # from memory)
    limit = additive_limit(card(), "TFA")
    assert limit is not None
    assert limit.level == pytest.approx(5.0 * 1.49 / 114.02 * 1000.0, rel=0.02)
    assert additive_limit(card(phase="bonded silica"), "TFA") is None
    assert additive_limit(card(), "ammonium formate") is None
    assert additive_limit(card(), "stardust") is None


def test_levels_of_the_modifier_and_of_the_whole() -> None:
    own = card(additive_limits=[{"additive": "stardust", "level": "4 mM", "of": "total"}])
    limit = additive_limit(own, "Stardust")
    assert limit is not None and limit.of == "total"
    entry = AdditiveLevel.model_validate({"additive": "stardust", "level": "20 mM"})
    assert level_in(entry, limit, 0.25) == pytest.approx(5.0)
    assert level_in(entry, limit, None) is None
    whole = AdditiveLevel.model_validate({"additive": "stardust", "level": "20 mM", "of": "total"})
    assert level_in(whole, limit, None) == pytest.approx(20.0)
    assert level_in(AdditiveLevel.model_validate({"additive": "stardust"}), limit, 0.25) is None


@pytest.mark.parametrize("phase", ["bonded silica", "immobilised polysaccharide"])
def test_classes_of_liquids_on_both_lists(phase: str) -> None:
    own = card(phase=phase, forbidden_liquids=["alcohols", "ketones"])
    assert tolerance(own, "methanol").verdict == "forbidden"
    assert tolerance(own, "acetone").verdict == "forbidden"
    assert tolerance(own, "acetonitrile").verdict == "allowed"
    only = card(phase=phase, allowed_liquids=["alkanes"])
    assert tolerance(only, "n-heptane").verdict == "allowed"
    assert tolerance(only, "methanol").verdict == "not known"


def test_a_list_of_allowed_liquids_does_not_forgive_what_dissolves_the_phase() -> None:
    own = card(allowed_liquids=["n-heptane"])
    assert tolerance(own, "methanol").verdict == "not known"
    assert tolerance(own, "chloroform").verdict == "forbidden"
