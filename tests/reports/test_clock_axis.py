"""The clock of a sequence as an axis: round times of day, or hours where the start is not known."""

from __future__ import annotations

import datetime
import itertools
from types import SimpleNamespace
from typing import Any

import pytest

from methodlint.reports.html.clock_axis import clock_text, clock_ticks, clock_words


def batch(hours: float, begins: str | None = None) -> Any:
    start = None if begins is None else datetime.datetime.fromisoformat(begins)
    return SimpleNamespace(duration=hours * 3600.0, typed=SimpleNamespace(begins=start))


def test_round_hours_behind_a_start_that_is_not_round() -> None:
    """From 9:20 for six hours: whole hours are at most seven, the first after 40 minutes."""
    ticks = clock_ticks(batch(6.0, "2026-11-24T09:20"))
    assert ticks[0] == (2400.0, "10:00")
    assert [text for _, text in ticks] == ["10:00", "11:00", "12:00", "13:00", "14:00", "15:00"]


def test_a_start_on_the_hour_is_a_tick_itself() -> None:
    assert clock_ticks(batch(2.0, "2026-11-24T09:00"))[0] == (0.0, "09:00")


def test_hours_from_the_start_where_it_is_not_known() -> None:
    assert [text for _, text in clock_ticks(batch(3.0))] == [
        "0", "0.5", "1", "1.5", "2", "2.5", "3"
    ]  # fmt: skip
    assert clock_words(batch(3.0)) == "hours from the start"
    assert clock_words(batch(3.0, "2026-11-24T09:00")) == "time of day"


def test_days_show_the_day_at_midnight() -> None:
    ticks = clock_ticks(batch(5 * 24.0, "2026-11-24T18:00"))
    assert ticks[0] == (6 * 3600.0, "11-25")
    assert [text for _, text in ticks] == ["11-25", "11-26", "11-27", "11-28", "11-29"]


@pytest.mark.parametrize("days", [10, 60, 400, 4_000])
def test_however_long_a_sequence_is_the_ticks_are_few_and_evenly_spaced(days: int) -> None:
    ticks = [at for at, _ in clock_ticks(batch(days * 24.0, "2026-11-24T18:00"))]
    assert 4 <= len(ticks) <= 10
    assert len({late - early for early, late in itertools.pairwise(ticks)}) == 1
    assert ticks[-1] <= days * 86_400.0 + 1.0


def test_a_sequence_of_no_length_has_its_start() -> None:
    assert clock_ticks(batch(0.0, "2026-11-24T09:20")) == [(0.0, "09:20")]
    assert clock_ticks(batch(0.0)) == [(0.0, "0")]
    assert clock_text(batch(1.0, "2026-11-24T23:30"), 3600.0) == "00:30"
