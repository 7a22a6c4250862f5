"""`calendar.column-limit-passed`: each sequence makes 24 injections on the column."""

from __future__ import annotations

import pytest

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.column-limit-passed"


def _log(count: int, more: str = "") -> str:
    return (
        f"kind: column\ninjections: {{count: {count}, limit: 3000, last_test_passed: true{more}}}"
    )


@pytest.mark.parametrize(
    ("second", "cards"),
    [
        pytest.param("", _log(640), id="far below"),
        pytest.param("", _log(2952), id="exactly at the limit"),
        pytest.param("", _log(2980), id="passed by the first alone"),
        pytest.param("begins: 2026-12-05T18:00", _log(2970), id="more than a week later"),
    ],
)
def test_silent(second: str, cards: str) -> None:
    assert findings(planned(second, cards), RULE) == []


def test_second_passes_the_limit() -> None:
    (found,) = findings(planned("", _log(2970)), RULE)
    assert found.grade == "caution"
    assert found.found is not None and found.found.value == 2970 + 48


def test_note_where_the_limit_is_advisory() -> None:
    (found,) = findings(planned("", _log(2970, ", limit_is_advisory: true")), RULE)
    assert found.grade == "note"
