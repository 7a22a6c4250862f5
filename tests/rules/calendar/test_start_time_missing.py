"""`calendar.start-time-missing`: asked once, and only where something is shared."""

from __future__ import annotations

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.start-time-missing"
THIRD = "kind: sequence\nx-name: third\nbegins: null\nslot: null"


def test_silent_with_starts() -> None:
    assert findings(planned(), RULE) == []


def test_silent_for_one_sequence() -> None:
    assert findings("kind: sequence\nbegins: null\nslot: null", RULE) == []


def test_silent_where_nothing_is_shared() -> None:
    cards = "kind: instrument\nx-name: bench-b\n---\nkind: supply\nx-name: store-b"
    apart = planned("begins: null\ninstrument: bench-b\nsupply: store-b", cards)
    assert findings(apart, RULE) == []


def test_several_are_one_note() -> None:
    (found,) = findings(planned("begins: null", THIRD), RULE)
    assert found.grade == "note"
    assert "2 sequences" in found.message and "second, third" in found.message
