"""`history.column-resistance-falls`: a void or a leak upstream; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import GOOD, daily, entries, findings

RULE = "history.column-resistance-falls"

PEAK = ", peak: a, plates: {}"


@pytest.mark.parametrize(
    "values",
    [
        pytest.param((*GOOD, 217, 219, 216, 217), id="the scatter of a lab"),
        pytest.param((*GOOD, 195, 217, 216, 218), id="one bad reading"),
        pytest.param((*GOOD, 200, 199), id="two readings make no trend"),
    ],
)
def test_silent(values: tuple[int, ...]) -> None:
    assert findings(daily(values), RULE) == []


def test_fall_of_a_quarter() -> None:
    (found,) = findings(daily((*GOOD, 201, 202, 200, 201)), RULE)
    assert found.grade == "caution" and "a leak upstream" in found.message
    assert found.found is not None and found.found.value == pytest.approx(-24.0, abs=4.0)


def test_plates_that_fell_too_speak_of_a_void() -> None:
    values = [(p, 9000) for p in GOOD] + [(p, 5000) for p in (201, 202, 200, 201)]
    rows = [f"date: 2026-09-{n:02}, start_pressure: {p} bar, peak: a, plates: {plates}"
            for n, (p, plates) in enumerate(values, 1)]  # fmt: skip
    (found,) = findings(entries(*rows), RULE)
    assert "a void at the inlet is likely" in found.message
