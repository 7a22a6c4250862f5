"""A guard against its column: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "column.guard-differs"


def guard(more: str = "", length: str = "10 mm") -> str:
    return (
        "kind: method\ncolumn: [guard, column]\n---\n"
        f"kind: column\nx-name: guard\nlength: {length}\n{more}\n"
    )


def test_silent_without_a_guard() -> None:
    assert findings("kind: method\ncolumn: column\n", RULE) == []


def test_silent_for_a_guard_of_the_same_phase_and_bore() -> None:
    assert findings(guard(), RULE) == []


def test_silent_for_two_columns_in_series() -> None:
    assert findings(guard("selector: 2-ethylpyridine", "100 mm"), RULE) == []


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("selector: 2-ethylpyridine", "selector 2-ethylpyridine, the column propanediol"),
        ("phase: bare silica", "phase bare silica, the column bonded silica"),
        ("inner_diameter: 4.6 mm", "inner diameter 4.6 mm, the column 3.0 mm"),
    ],
)
def test_a_guard_that_differs_is_a_caution(more: str, says: str) -> None:
    (found,) = findings(guard(more), RULE)
    assert found.grade == "caution"
    assert says in found.message
