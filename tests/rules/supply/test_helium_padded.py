"""CO2 under helium: a paper on helium headspace cylinders (abstract only)."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "supply.helium-padded"


def test_silent_for_plain_co2() -> None:
    assert findings("kind: supply\npadded: false\n", RULE) == []


def test_silent_for_a_method_developed_on_it() -> None:
    own = "kind: method\ndeveloped_on_padded_co2: true\n---\n"
    assert findings(own + "kind: supply\npadded: true\n", RULE) == []


def test_a_method_of_plain_co2_under_helium_is_a_caution() -> None:
    (found,) = findings("kind: supply\npadded: true\n", RULE)
    assert found.grade == "caution"
    assert "(abstract only)" in found.message
