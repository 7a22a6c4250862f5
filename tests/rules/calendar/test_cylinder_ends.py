"""`calendar.cylinder-ends`: the sum of what sequences take from one cylinder.

Saturated vapour at 15 degC: 160.7 kg/m3 (Span and Wagner 1996), 8.04 kg in 50 L; with 0.5 kg of
heel 8.54 kg of every weighing cannot be drawn. Each sequence takes 0.376 kg.
"""

from __future__ import annotations

import pytest

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.cylinder-ends"
THIRD = "kind: sequence\nx-name: third\nbegins: 2026-11-25T09:00\nslot: null\n---\n"
EXACT = "store_temperature: {value: 15 degC, tolerance: 0.01 K}\n"


def _supply(mass: str, more: str = "") -> str:
    return f"kind: supply\n{EXACT}net_mass: {{value: {mass}, tolerance: 10 g}}\n{more}"


@pytest.mark.parametrize(
    "cards",
    [
        pytest.param(_supply("31 kg"), id="enough for both"),
        pytest.param(_supply("9.4 kg"), id="0.86 kg can be drawn, 0.75 kg are"),
        pytest.param(_supply("8.7 kg"), id="each is short by itself: said of each"),
        pytest.param(_supply("9.1 kg", "changeover: automatic"), id="another cylinder takes over"),
        pytest.param(_supply("9.1 kg", "withdrawal: bulk"), id="a tank"),
        pytest.param(_supply("9.1 kg", "weighed: 2026-11-26"), id="weighed after both"),
        pytest.param(
            f"{_supply('9.1 kg')}---\nkind: supply\nx-name: other\n", id="nobody else on its supply"
        ),
    ],
)
def test_silent(cards: str) -> None:
    apart = "supply: other" if "x-name: other" in cards else ""
    assert findings(planned(apart, cards), RULE) == []


def test_second_is_short_after_the_first() -> None:
    (found,) = findings(planned("", _supply("9.1 kg")), RULE)
    assert (found.grade, found.at.document.kind) == ("fault", "supply")
    assert found.found is not None and found.limit is not None
    assert found.found.value == pytest.approx(0.751, abs=0.005)
    assert found.limit.value == pytest.approx(9.1 - 8.54, abs=0.01)
    assert "0.376 kg are taken by sequence before it" in found.message
    assert "change the cylinder before 2026-11-24 18:00" in found.remedy


def test_nobody_is_there_when_it_ends() -> None:
    (found,) = findings(planned("", _supply("9.1 kg")), RULE)
    assert "when nobody is in the room" in found.message, "the room is staffed until 18:00"


def test_third_counts_from_the_full_cylinder() -> None:
    found = findings(planned("", THIRD + _supply("9.1 kg")), RULE)
    assert len(found) == 1, "a full one was connected before the second"


def test_possible_where_only_the_tolerances_are_short() -> None:
    loose = "kind: supply\nstore_temperature: {value: 15 degC, tolerance: 2 K}\nnet_mass: 9.6 kg\n"
    (found,) = findings(planned("", loose), RULE)
    assert found.grade == "caution" and found.possible
