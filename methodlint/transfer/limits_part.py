"""Pressure limits of the proposed method, from what was rehearsed."""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.documents.quantities.format import show
from methodlint.rehearsal.run.extreme import Extreme
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.transfer.draft import Draft
from methodlint.transfer.entry import How
from methodlint.transfer.sides import Sides

__all__ = ["draft_limits"]

_HIGH_STEP = 5e5


def draft_limits(draft: Draft, sides: Sides, run: Rehearsal) -> None:
    """Set the limits anew where the source has some."""
    limits = sides.typed.pressure_limits
    if limits is None or not run.done:
        return
    worst = run.highest(run.pump_pressure)
    before = sides.run.highest(sides.run.pump_pressure)
    same = abs(worst.value - before.value) < 0.2e5
    if limits.high is not None:
        value, limit, said = _high_limit(sides, worst)
        if same:
            value, limit = limits.high.si, ""
        why = (
            f"1.1 x the highest pump pressure predicted, {show(worst.value, 'pressure')}, "
            f"{worst.band_words}{said}"
        )
        how: How = "limited by" if limit else "derived"
        draft.quantity(
            "high pressure limit", ("pressure_limits", "high"), limits.high, value, how=how,
            limit=limit, why=why,
        )  # fmt: skip
    if limits.low is not None:
        least = float(run.pump_pressure.min())
        setting = float(run.outlet_pressure.max())
        value = max(0.8 * least, min(setting + 5e5, 0.95 * least))
        value = limits.low.si if same else round(value / 1e5) * 1e5
        draft.quantity(
            "low pressure limit", ("pressure_limits", "low"), limits.low, value,
            why=f"lowest pump pressure predicted {show(least, 'pressure')}, regulator at "
            f"{show(setting, 'pressure')}",
        )  # fmt: skip


def _high_limit(sides: Sides, worst: Extreme) -> tuple[float, str, str]:
    """High limit [Pa], what limits it, and what else has to be said."""
    wanted = max(1.1 * worst.value, worst.value + worst.band)
    wanted = math.ceil(wanted / _HIGH_STEP - 1e-9) * _HIGH_STEP
    ratings = sorted(_ratings(sides))
    too_low = [(rating, part) for rating, part in ratings if rating < worst.value]
    said = ""
    if too_low:
        rating, part = too_low[0]
        said = (
            f"; {part} is rated {show(rating, 'pressure')} and a blocked outlet would press on it: "
            "no limit of the pump protects it, a trip or relief there would"
        )
    for rating, part in ratings:
        if worst.value <= rating < wanted:
            return rating, f"the rating of {part}", said
    return wanted, "", said


def _ratings(sides: Sides) -> Iterator[tuple[float, str]]:
    """Ratings of parts that a blocked outlet would press on, without a trip of their own."""
    column = sides.target.column.pressure_rating
    if column is not None:
        yield column.si, "the column"
    for part in sides.target.card.train:
        if part.part == "regulator":
            break
        if part.pressure_rating is not None and part.trip is None and part.relief is None:
            yield part.pressure_rating.si, part.name or part.part
