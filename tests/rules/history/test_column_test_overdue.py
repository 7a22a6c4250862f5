"""`history.column-test-overdue`: the card's interval between two tests."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import entries, findings

RULE = "history.column-test-overdue"

CARD = "kind: column\ninjections: {count: 0, last_test: 2026-08-20, test_interval: 15 d}\n"


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(entries("date: 2026-09-03, injections: 5"), id="within the interval"),
        pytest.param(
            entries("date: 2026-09-03, column_test: passed", "date: 2026-09-16, injections: 5"),
            id="tested in between",
        ),
    ],
)
def test_silent(text: str) -> None:
    assert findings(text, RULE, CARD) == []


def test_overdue() -> None:
    (found,) = findings(entries("date: 2026-09-16, injections: 5"), RULE, CARD)
    assert found.found is not None and found.found.value == 27.0


def test_failed() -> None:
    (found,) = findings(entries("date: 2026-09-01, column_test: failed"), RULE, CARD)
    assert "failed its last test" in found.message
