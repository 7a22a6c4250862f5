"""The clock of a sequence as an axis: times of day where the start is known, else hours."""

from __future__ import annotations

from methodlint.documents.quantities.format import number
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.batch.lines import Batch

__all__ = ["clock_text", "clock_ticks", "clock_words"]

_STEPS = (300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400)


def clock_ticks(batch: Batch, count: int = 7) -> list[tuple[float, str]]:
    """Ticks over a sequence: seconds from its start, and their texts."""
    length = batch.duration
    if length <= 0.0:
        return [(0.0, clock_text(batch, 0.0))]
    step = next((step for step in _STEPS if length / step <= count), 0)
    if not step:
        days = length / 86400.0
        step = 86400 * max(1, round(days / count))
    begins = batch.typed.begins
    first = 0.0
    if begins is not None:
        midnight = begins.replace(hour=0, minute=0, second=0, microsecond=0)
        first = -((begins - midnight).total_seconds() % step) % step
    ticks = []
    while first <= length + 1.0:
        ticks.append((first, clock_text(batch, first, days=step >= 86400)))
        first += step
    return ticks


def clock_text(batch: Batch, seconds: float, *, days: bool = False) -> str:
    """Time of day, or hours from the start."""
    begins = batch.typed.begins
    if begins is None:
        return number(seconds / 3600.0)
    at = clock_at(begins, seconds)
    return f"{at:%m-%d}" if days else f"{at:%H:%M}"


def clock_words(batch: Batch) -> str:
    """Name of the axis."""
    return "hours from the start" if batch.typed.begins is None else "time of day"
