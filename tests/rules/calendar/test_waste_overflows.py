"""`calendar.waste-overflows`: one vessel for several sequences; each brings 124.2 mL."""

from __future__ import annotations

import pytest

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.waste-overflows"


def _vessel(capacity: str, more: str = "") -> str:
    return f"kind: room\nwaste:\n  - {{name: bottle, capacity: {capacity}, level: 120 mL{more}}}\n"


@pytest.mark.parametrize(
    "cards",
    [
        pytest.param(_vessel("5 L"), id="enough for both"),
        pytest.param(_vessel("470 mL"), id="256 mL fit, 248.5 mL come"),
        pytest.param(_vessel("300 mL"), id="too small for each by itself"),
        pytest.param(_vessel("400 mL", ", drain: true"), id="plumbed to a drain"),
    ],
)
def test_silent(cards: str) -> None:
    assert findings(planned("", cards), RULE) == []


def test_second_runs_over() -> None:
    # 80 % of 400 mL less 120 mL: 200 mL fit (share: common practice, no source).
    (found,) = findings(planned("", _vessel("400 mL")), RULE)
    assert (found.grade, found.at.path) == ("caution", ("waste", 0, "level"))
    assert found.found is not None and found.found.value == pytest.approx(248.5, abs=0.2)
    assert found.limit is not None and found.limit.value == pytest.approx(200.0)
