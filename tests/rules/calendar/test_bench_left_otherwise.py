"""`calendar.bench-left-otherwise`: what the one before leaves; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.bench-left-otherwise"
# 5 K/min from 40 to 30 degC and 10 min of soak: 12 min, a common practice without a source.
COOLER = "kind: method\nx-name: cooler\noven_temperature: 30 degC\n---\nkind: solvents\npurge_volume: 50 mL"
NOW = "begins: 2026-11-24T14:02\nmethod: cooler\nequilibration: 0 min\n"
LINES = "lines: [{kind: sample, sample: extract 9, plate: 1, well: E1, fill: 1 mL}]"


@pytest.mark.parametrize(
    "second",
    [
        pytest.param("", id="the same method, purged and equilibrated"),
        pytest.param("previous: {modifier: methanol, co2: 'off'}", id="as it is left"),
        pytest.param("method: cooler", id="the oven has hours to cool"),
        pytest.param("begins: 2026-11-24T14:02\nmethod: cooler", id="and 10 min beside the lines"),
    ],
)
def test_silent(second: str) -> None:
    assert findings(planned(second, COOLER), RULE) == []


def test_another_state_than_expected() -> None:
    (found,) = findings(planned("previous: {modifier: ethanol}"), RULE)
    assert found.grade == "caution"
    assert "modifier lines: left methanol, expected ethanol" in found.message


def test_oven_has_no_time_to_cool() -> None:
    (found,) = findings(planned(NOW + LINES, COOLER), RULE)
    assert found.grade == "caution" and "oven" in found.message
    assert found.limit is not None and found.limit.value == pytest.approx(12.0)


def test_modifier_left_without_purge() -> None:
    other = (
        "kind: method\nx-name: cooler\nmobile_phase: {modifier: {liquid: ethanol, line: modifier-2}}"
        "\n---\nkind: solvents\npurge_volume: null"
    )
    (found,) = findings(planned(NOW + LINES, other), RULE)
    assert (
        "leaves methanol in the modifier line, this sequence starts with ethanol" in found.message
    )


def test_column_that_is_not_fitted_is_a_note() -> None:
    other = "kind: column\nx-name: spare\n---\nkind: method\nx-name: cooler\ncolumn: spare"
    (found,) = findings(planned("method: cooler", other), RULE)
    assert found.grade == "note" and "changes the column" in found.message
