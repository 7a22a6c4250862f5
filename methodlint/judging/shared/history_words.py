"""Changes of a history in words: since when, how much, how surely."""

from __future__ import annotations

import datetime

from methodlint.documents.quantities.format import counted
from methodlint.rehearsal.history.change import LevelChange

__all__ = ["certainty", "day", "level_words", "since_words"]


def day(moment: datetime.datetime) -> str:
    """Write the day of a moment."""
    return f"{moment:%Y-%m-%d}"


def level_words(size: float) -> str:
    """Write a change of a ratio with its sign."""
    return f"{100.0 * size:+.0f} %"


def since_words(change: LevelChange) -> str:
    """Say since when, found when, and after how many readings."""
    return (
        f"since about {day(change.began.moment)}, seen on {day(change.found.moment)} after "
        f"{counted(change.runs, 'reading')}"
    )


def certainty(change: LevelChange) -> str:
    """Say how fast it changes and how sure the trend is; empty where too few readings say so."""
    said = []
    # A step has no slope: an interval that holds zero says so.
    if change.slope is not None and change.slope.low * change.slope.high > 0.0:
        low, high = sorted((change.slope.low, change.slope.high))
        said.append(
            f"{100.0 * 7.0 * change.slope.value:+.1f} % a week (Theil-Sen, "
            f"{700.0 * low:+.1f} to {700.0 * high:+.1f})"
        )
    if change.trend is not None:
        said.append(f"Kendall tau {change.trend.tau:+.2f} over {change.readings} readings")
    return "; ".join(said)
