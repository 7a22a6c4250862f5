"""Freezing points: CRC Handbook of Chemistry and Physics (dimethyl sulfoxide 18.5 degC, cyclohexane
6.7 degC, 1,4-dioxane 11.8 degC). The reserve of 3 K: common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "solvent.freezes-in-cold-place"


def _bottles(*lines: str) -> str:
    return "kind: solvents\nbottles:\n" + "".join(f"  - {{{line}}}\n" for line in lines)


def test_silent_for_the_usual_liquids() -> None:
    assert findings("", RULE) == []


def test_silent_with_a_tenth_of_water() -> None:
    blend = "diluent: {liquids: [{liquid: DMSO, share: 88 %}, {liquid: water, share: 12 %}]}\n"
    assert findings(f"kind: sequence\n{blend}", RULE) == []


def test_silent_for_dioxane_in_a_warm_room() -> None:
    assert findings(_bottles("line: modifier-1, liquid: dioxane"), RULE) == []


@pytest.mark.parametrize(
    ("liquid", "point"), [("DMSO", 18.5), ("cyclohexane", 6.7), ("dioxane", 11.8)]
)
def test_on_the_tray(liquid: str, point: float) -> None:
    tray = "---\nkind: instrument\nautosampler: {tray_temperature: 5 degC}\n"
    (found,) = findings(f"kind: sequence\ndiluent: {liquid}\n{tray}", RULE)
    assert found.grade == "fault"
    assert found.limit is not None
    assert found.limit.value == pytest.approx(point + 3.0, abs=0.2)


def test_the_remedy_warms_the_tray() -> None:
    (found,) = findings("kind: sequence\ndiluent: DMSO\n", RULE)
    assert found.remedy == "set the tray to 22 degC"


def test_in_the_bottle_at_night() -> None:
    (found,) = findings(_bottles("line: modifier-1, liquid: DMSO"), RULE)
    assert "the bottle on modifier-1" in found.message


COLDEST_UNKNOWN = """---
kind: room
lowest_temperature: null
---
kind: solvents
coldest_place: null
bottles: [{line: modifier-1, liquid: DMSO}]
"""


def test_the_tray_is_known_where_the_coldest_place_is_not() -> None:
    (found,) = findings(f"kind: sequence\ndiluent: DMSO\n{COLDEST_UNKNOWN}", RULE)
    assert "the vial on the tray" in found.message


def test_a_place_that_may_be_too_cold_is_asked_for() -> None:
    """20 degC is taken, and 18.5 degC with 3 K in reserve are not below it."""
    (left,) = judged(COLDEST_UNKNOWN.removeprefix("---\n"), RULE).not_checked
    assert left.missing == ("solvents.coldest_place",)
