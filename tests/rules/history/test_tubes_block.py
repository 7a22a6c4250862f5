"""`history.tubes-block`: all columns of a bench read more at one time; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import GOOD, entries, findings

RULE = "history.tubes-block"

OTHER = "kind: column\nx-name: other\n"


def _both(first: tuple[int, ...], second: tuple[int, ...]) -> str:
    rows = []
    for n, (one, two) in enumerate(zip(first, second, strict=True), 1):
        rows.append(f"date: 2026-09-{n:02}, start_pressure: {one} bar")
        rows.append(f"date: 2026-09-{n:02}, column: other, start_pressure: {two} bar")
    return entries(*rows)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        pytest.param((*GOOD, 217, 218, 216), (*GOOD, 217, 216, 218), id="nothing has changed"),
        pytest.param((*GOOD, 238, 239, 240), (*GOOD, 217, 216, 218), id="one column of the two"),
        pytest.param((*GOOD, 238, 239, 240), (*GOOD, 295, 296, 297), id="by other pressures"),
    ],
)
def test_silent(first: tuple[int, ...], second: tuple[int, ...]) -> None:
    assert findings(_both(first, second), RULE, OTHER) == []


def test_both_columns_read_20_bar_more() -> None:
    (found,) = findings(_both((*GOOD, 237, 238, 239), (*GOOD, 238, 237, 239)), RULE, OTHER)
    assert found.grade == "caution" and "column, other" in found.message
    assert found.found is not None and found.found.value == pytest.approx(21.0, abs=3.0)
