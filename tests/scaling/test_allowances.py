"""Allowance sets: spans of the harmonised chapter, and what has to be said with them."""

from __future__ import annotations

import pytest

from methodlint.scaling.allowances import ALLOWANCES, allowance_set

SET = ALLOWANCES["pharmacopoeial"]


@pytest.mark.parametrize(
    ("key", "isocratic", "inside", "outside"),
    [
        # USP <621> harmonised, official 1 December 2022, through secondary quotations.
        ("length_to_particle", True, (-0.25, 0.0, 0.50), (-0.26, 0.51)),
        ("length_to_particle", False, (-0.25, 0.50), (-0.26, 0.51)),
        ("flow", True, (-0.50, 0.50), (-0.51, 0.51)),
        ("minor_relative", True, (-0.30, 0.30), (0.31,)),
        ("minor_absolute", True, (-0.10, 0.10), (0.101,)),
        ("temperature", True, (-10.0, 10.0), (10.1,)),
        ("buffer", True, (0.10,), (0.11,)),
        # The same chapter, from memory.
        ("temperature", False, (-5.0, 5.0), (5.1,)),
        ("wavelength", True, (0.0,), (0.001,)),
    ],
)
def test_spans(key, isocratic, inside, outside):
    found = SET.of(key, isocratic=isocratic)
    assert found is not None
    assert all(found.allows(change) for change in inside)
    assert not any(found.allows(change) for change in outside)


def test_outlet_pressure_has_no_allowance():
    found = SET.of("outlet_pressure", isocratic=True)
    assert found is not None
    assert not found.allows(0.0)
    assert "no allowance found" in found.words


def test_analogy_is_said():
    assert "LC table by analogy (second-hand)" in SET.note


def test_every_allowance_names_its_source():
    for table in (SET.isocratic, SET.gradient):
        assert all(item.source for item in table.values())
    assert "(unverified)" in SET.gradient["temperature"].source


def test_none_allows_nothing_and_says_nothing():
    assert ALLOWANCES["none"].of("flow", isocratic=True) is None


def test_the_labs_own():
    own = allowance_set("lab", {"flow": 0.2, "temperature": 3.0})
    flow = own.of("flow", isocratic=False)
    assert flow is not None
    assert flow.allows(-0.2)
    assert not flow.allows(0.25)
    with pytest.raises(ValueError, match="declares no allowances"):
        allowance_set("lab", {})
