"""CO2 that was weighed against CO2 that was predicted, cylinder by cylinder."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from methodlint.rehearsal.bench.co2_supply import WEIGHING_TOLERANCE
from methodlint.rehearsal.history.readings import LogReading
from methodlint.rehearsal.history.thresholds import Thresholds

__all__ = ["Weighed", "weighed_against_predicted"]

_SURE = 3.0
"""Scale tolerances by which two weighings may be apart by themselves [-]."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """CO2 between two weighings of one cylinder.

    Attributes
    ----------
    cylinder
        Counted from 1 at each supply.
    begins, ends
        When it was weighed.
    entry, last
        Numbers of the entries with the weighings.
    weighed, predicted
        [kg].
    limit
        Difference that scale and prediction may make [kg].
    runs
        Entries in between.
    unknown
        Entries in between for which nothing could be predicted.
    whole
        Whether it is the whole of what the cylinder gave so far.
    change_not_logged
        Whether the weight rises between the two although no change of the cylinder is logged.
    """

    supply: str
    cylinder: int
    begins: datetime.datetime
    ends: datetime.datetime
    entry: int
    last: int
    weighed: float
    predicted: float
    limit: float
    runs: int
    unknown: int
    whole: bool = False
    change_not_logged: bool = False

    @property
    def more(self) -> float:
        """Used beyond what was predicted [kg]; negative if less."""
        return self.weighed - self.predicted

    @property
    def differs(self) -> bool:
        """Whether it is more than scale and prediction explain; never where a run is unknown."""
        known = not self.unknown and not self.change_not_logged
        return known and abs(self.more) > self.limit


def weighed_against_predicted(readings: Sequence[LogReading], limits: Thresholds) -> list[Weighed]:
    """Go through the weighings of every supply in order of time.

    Each interval stands by itself, and at the end of every cylinder stands what it gave in all:
    a small leak hides in the error of one weighing, not in that of ten runs between two.
    """
    supplies = sorted({one.supply for one in readings if one.supply})
    found: list[Weighed] = []
    for supply in supplies:
        found += _of_supply(supply, [one for one in readings if one.supply == supply], limits)
    return found


def _weighings(own: Sequence[LogReading]) -> Iterator[tuple[LogReading, float, bool]]:
    """Every weight in order, and whether it was taken before the run of its entry."""
    for one in own:
        if one.weight_before is not None:
            yield one, one.weight_before, True
        if one.weight_after is not None:
            yield one, one.weight_after, False


def _of_supply(supply: str, own: Sequence[LogReading], limits: Thresholds) -> Iterator[Weighed]:
    order = {one.entry: number for number, one in enumerate(own)}
    last: tuple[LogReading, float, bool] | None = None
    first: tuple[LogReading, float, bool] | None = None
    number, intervals = 1, 0
    latest: Weighed | None = None
    for weighing in _weighings(own):
        _, weight, _ = weighing
        if last is not None:
            between = _between(own, order, last, weighing)
            changed = any(entry.changed for entry in between[1])
            if changed or weight > last[1] + _SURE * WEIGHING_TOLERANCE:
                if latest is not None and intervals > 1:
                    yield latest
                if not changed:
                    risen = _weighed(supply, number, last, weighing, (), limits)
                    yield replace(risen, change_not_logged=True)
                first, number, intervals, latest = weighing, number + 1, 0, None
            else:
                assert first is not None
                yield _weighed(supply, number, last, weighing, between[0], limits)
                intervals += 1
                whole = _between(own, order, first, weighing)
                latest = _weighed(supply, number, first, weighing, whole[0], limits, whole=True)
        else:
            first = weighing
        last = weighing
    if latest is not None and intervals > 1:
        yield latest


def _between(
    own: Sequence[LogReading],
    order: dict[int, int],
    first: tuple[LogReading, float, bool],
    last: tuple[LogReading, float, bool],
) -> tuple[Sequence[LogReading], Sequence[LogReading]]:
    """Entries that ran between two weighings, and those before which a cylinder may be changed."""
    begin = order[first[0].entry] + (0 if first[2] else 1)
    end = order[last[0].entry] + (0 if last[2] else 1)
    changes = own[order[first[0].entry] + 1 : order[last[0].entry] + 1]
    return own[begin:end], changes


def _weighed(
    supply: str,
    number: int,
    first: tuple[LogReading, float, bool],
    last: tuple[LogReading, float, bool],
    between: Sequence[LogReading],
    limits: Thresholds,
    *,
    whole: bool = False,
) -> Weighed:
    # An entry that only weighs has run nothing.
    runs = [one for one in between if one.has_run]
    predicted = sum(one.co2 for one in runs if one.co2 is not None)
    scale = _SURE * WEIGHING_TOLERANCE
    return Weighed(
        supply,
        number,
        first[0].moment,
        last[0].moment,
        first[0].entry,
        last[0].entry,
        first[1] - last[1],
        predicted,
        math.hypot(scale, limits.co2_difference * predicted),
        len(runs),
        sum(one.co2 is None for one in runs),
        whole,
    )
