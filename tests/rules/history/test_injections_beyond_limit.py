"""`history.injections-beyond-limit`: logged injections against the card's limit."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import daily, findings

RULE = "history.injections-beyond-limit"

CARD = "kind: column\ninjections: {count: 0, limit: 100%s}\n"


@pytest.mark.parametrize("counts", [pytest.param((50, 50), id="at the limit"), (99,)])
def test_silent(counts: tuple[int, ...]) -> None:
    assert findings(daily(counts, "injections: {}"), RULE, CARD % "") == []


def test_limit_is_passed_once() -> None:
    (found,) = findings(daily((60, 60, 60), "injections: {}"), RULE, CARD % "")
    assert (found.grade, found.at.path) == ("caution", ("entries", 1))
    assert "180 logged injections, 80 more than its limit 100" in found.message


def test_note_where_the_limit_is_advisory() -> None:
    card = CARD % ", limit_is_advisory: true, last_test_passed: true"
    (found,) = findings(daily((60, 60), "injections: {}"), RULE, card)
    assert found.grade == "note"
