"""`history.column-resistance-rises`: a column that clogs; thresholds are common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import GOOD, daily, entries, findings

RULE = "history.column-resistance-rises"

POLICY = "kind: lab\npolicy: {review: {resistance_change: 60 %}}\n"


@pytest.mark.parametrize(
    "values",
    [
        pytest.param((*GOOD, 217, 219, 216, 217), id="the scatter of a lab"),
        pytest.param((*GOOD, 221, 222, 221, 222), id="7 %, below 15 %"),
        pytest.param((*GOOD, 240, 217, 216, 218), id="one bad reading"),
        pytest.param((*GOOD, 240, 241), id="two readings make no trend"),
        pytest.param((217, 240, 241, 242), id="too few to compare with"),
    ],
)
def test_silent(values: tuple[int, ...]) -> None:
    assert findings(daily(values), RULE) == []


def test_silent_where_the_outlet_explains_it() -> None:
    rows = [f"date: 2026-09-{n:02}, start_pressure: {p} bar, outlet_pressure: {o} bar"
            for n, (p, o) in enumerate([(217, 150)] * 6 + [(227, 160)] * 6, 1)]  # fmt: skip
    assert findings(entries(*rows), RULE) == []


def test_silent_below_the_threshold_of_the_lab() -> None:
    assert findings(daily((*GOOD, 234, 236, 238, 240)), RULE, POLICY) == []


def test_rise_of_20_bar_in_65() -> None:
    (found,) = findings(daily((*GOOD, 232, 234, 236, 238, 239, 240)), RULE)
    assert found.grade == "caution" and found.at.path == ("entries", 6)
    assert found.found is not None and found.found.value == pytest.approx(31.0, abs=4.0)
    assert "since about 2026-09-07" in found.message and "Theil-Sen" in found.message


def test_note_once_it_has_come_back() -> None:
    (found,) = findings(daily((*GOOD, 240, 240, 241, 240, 217, 218, 217, 217, 218)), RULE)
    assert found.grade == "note" and "come back" in found.message


def test_the_highest_pressure_counts_at_the_composition_that_was_predicted() -> None:
    """Read at another composition than the programme's, it says nothing about the bed."""
    rise = (300,) * 6 + (375,) * 6
    assert findings(daily(rise, "highest_pressure: {} bar"), RULE)
    other = daily(rise, "highest_pressure: {} bar", ", highest_share: 99 %")
    assert findings(other, RULE) == []
