"""`calendar.bench-booked-twice`: two sequences at one time on one bench."""

from __future__ import annotations

import pytest

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.bench-booked-twice"


@pytest.mark.parametrize(
    "second",
    [
        pytest.param("", id="after the first has ended, at 14:01"),
        pytest.param("begins: 2026-11-24T14:01", id="within the minute that clocks differ by"),
        pytest.param("begins: 2026-11-24T03:00", id="before it"),
        pytest.param("begins: 2026-11-24T10:00\nstatus: draft", id="a draft is not planned"),
        pytest.param("begins: 2026-11-24T10:00\nstatus: retired", id="nor is a retired one"),
        pytest.param("begins: null", id="no start is guessed"),
    ],
)
def test_silent(second: str) -> None:
    assert findings(planned(second), RULE) == []


def test_silent_on_another_bench() -> None:
    bench = "kind: instrument\nx-name: bench-b"
    assert findings(planned("begins: 2026-11-24T10:00\ninstrument: bench-b", bench), RULE) == []


def test_overlap_is_a_fault_at_the_later_start() -> None:
    # The sound sequence takes 5 h 0.8 min from 09:00.
    (found,) = findings(planned("begins: 2026-11-24T10:00"), RULE)
    assert (found.grade, found.at.document.path) == ("fault", "second.yaml")
    assert found.found is not None and found.found.value == pytest.approx(4.013, abs=0.01)
    assert "from 2026-11-24 09:00 to 2026-11-24 14:00" in found.message
    assert found.remedy.startswith("begin after 2026-11-24 14:00")


def test_same_start_is_one_finding() -> None:
    (found,) = findings(planned("begins: 2026-11-24T09:00"), RULE)
    assert found.found is not None and found.found.value == pytest.approx(5.013, abs=0.01)
