"""`calendar.bottle-ends`: one bottle for several sequences; each takes 119.4 mL of methanol."""

from __future__ import annotations

import pytest

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.bottle-ends"


def _bottle(fill: str, more: str = "") -> str:
    bottle = f"{{line: modifier-1, liquid: methanol, fill: {fill}, dead_volume: 60 mL{more}}}"
    return f"kind: solvents\nbottles:\n  - {bottle}\n"


@pytest.mark.parametrize(
    ("second", "cards"),
    [
        pytest.param("", _bottle("900 mL"), id="enough for both"),
        pytest.param("", _bottle("310 mL"), id="250 mL can be drawn, 239 mL are"),
        pytest.param("", _bottle("150 mL"), id="short for each by itself"),
        pytest.param("begins: 2026-12-02T09:00", _bottle("220 mL"), id="more than a week later"),
        pytest.param("", _bottle("220 mL", ", opened: 2026-11-25"), id="opened after both"),
        pytest.param(
            "begins: 2026-11-25T09:00",
            _bottle("220 mL", ", filled: 2026-11-25"),
            id="filled between",
        ),
    ],
)
def test_silent(second: str, cards: str) -> None:
    assert findings(planned(second, cards), RULE) == []


def test_two_nights_on_one_bottle() -> None:
    # 60 mL cannot be drawn, 2 x 119.4 mL are needed: 160 mL are there.
    (found,) = findings(planned("", _bottle("220 mL")), RULE)
    assert (found.grade, found.at.path) == ("caution", ("bottles", 0, "fill"))
    assert found.found is not None and found.found.value == pytest.approx(238.9, abs=0.2)
    assert found.limit is not None and found.limit.value == pytest.approx(160.0)
    assert "78.9 mL short" in found.message


def test_fault_where_the_day_of_the_filling_is_written() -> None:
    (found,) = findings(planned("", _bottle("220 mL", ", filled: 2026-11-24")), RULE)
    assert found.grade == "fault"
