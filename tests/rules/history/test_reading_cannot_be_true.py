"""`history.reading-cannot-be-true`: what was misread takes no part."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import entries, findings

RULE = "history.reading-cannot-be-true"


@pytest.mark.parametrize(
    "row",
    [
        pytest.param("start_pressure: 217 bar, highest_pressure: 296 bar", id="as predicted"),
        pytest.param("start_pressure: 300 bar", id="a column that clogs"),
        pytest.param("start_pressure: 160 bar, start_share: 40 %", id="at another composition"),
        pytest.param("peak: a, retention_time: 0.45 min, plates: 20000", id="an early, sharp peak"),
        pytest.param(
            "weight_before: 62 kg, weight_after: 99 kg, cylinder_changed: true", id="a new cylinder"
        ),
    ],
)
def test_silent(row: str) -> None:
    assert findings(entries(f"date: 2026-09-01, {row}"), RULE) == []


@pytest.mark.parametrize(
    ("row", "says"),
    [
        pytest.param("start_pressure: 145 bar", "leaves no drop", id="below the regulator"),
        pytest.param("start_pressure: 620 bar", "above the rating", id="above the pumps' rating"),
        pytest.param("start_pressure: 158 bar", "is met by no column", id="hardly any drop"),
        pytest.param(
            "start_pressure: 217 bar, highest_pressure: 209 bar", "below the pressure at the start",
            id="the highest is not",
        ),
        pytest.param("peak: a, retention_time: 0.2 min", "before the mobile phase", id="too early"),
        pytest.param("peak: a, plates: 90000", "one particle high", id="too many plates"),
        pytest.param("weight_before: 62 kg, weight_after: 64 kg", "no change", id="got heavier"),
    ],
)  # fmt: skip
def test_misread(row: str, says: str) -> None:
    (found,) = findings(entries(f"date: 2026-09-01, {row}"), RULE)
    assert says in found.message and found.message.endswith("left out")


def test_entry_without_a_day() -> None:
    (found,) = findings(entries("start_pressure: 217 bar"), RULE)
    assert "1 entry without a day" in found.message
