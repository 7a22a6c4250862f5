"""What a calendar keeps of a rehearsed sequence: plain figures that can be sent and compared."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from methodlint.rehearsal.batch.bench_state import BenchState
from methodlint.rehearsal.batch.co2_draw import Co2Draw
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.bench.co2_supply import UsableLiquid

History = tuple[tuple[float, float], ...]
"""Clock [s] from the start of a sequence, and the volume taken or added by then [m3]."""


@dataclass(frozen=True, slots=True)
class StoreUse:
    """What a sequence takes from a bottle, or adds to a waste vessel.

    Attributes
    ----------
    number
        Number of the bottle or the vessel on its card, counted from 0.
    name
        Line of the bottle with its contents, or name of the vessel.
    usable
        What the bottle gives, or the vessel still takes, as the card states it [m3].
    band
        Relative half width of the volumes.
    history
        Volume over the clock; a bottle that is filled up again starts from 0.
    since
        First day to which the card's figure applies; None if the card has no date for it.
    dated
        Whether that day is the one of the filling itself.
    """

    number: int
    name: str
    usable: float
    band: float
    history: History
    since: datetime.date | None = None
    dated: bool = False

    @property
    def refilled(self) -> bool:
        """Whether the sequence itself fills the bottle up again."""
        volumes = [volume for _, volume in self.history]
        return any(after < before for before, after in pairwise(volumes))

    @property
    def first_need(self) -> float:
        """Taken before the first refill [m3]."""
        most = 0.0
        for _, volume in self.history:
            if volume < most:
                break
            most = volume
        return most

    @property
    def left_taken(self) -> float:
        """Taken since the last refill when the sequence ends [m3]."""
        return self.history[-1][1] if self.history else 0.0

    def clock_when(self, volume: float) -> float | None:
        """Clock [s] at which this much [m3] has been taken; None if that is never before a refill."""
        last_clock, last = 0.0, 0.0
        for clock, taken in self.history:
            if taken < last:
                return None
            if taken > last and taken > volume:
                part = max(volume - last, 0.0) / (taken - last)
                return last_clock + part * (clock - last_clock)
            last_clock, last = clock, taken
        return None


@dataclass(frozen=True, slots=True)
class TraySample:
    """A sample on the tray: what it is called, where it is, and when it was prepared.

    Attributes
    ----------
    injected
        Clock [s] at which it is injected for the last time.
    stability
        How long it keeps [s].
    """

    name: str
    position: tuple[str, str] | None
    index: int
    injected: float
    prepared: datetime.datetime | None
    stability: float | None


@dataclass(frozen=True, slots=True)
class ColumnUse:
    """Injections of a sequence on one column, and the log of its card."""

    path: str
    name: str
    injections: int
    logged: int | None
    limit: int | None
    soft: bool = False


@dataclass(frozen=True, slots=True)
class Booking:
    """One sequence as the calendar sees it.

    Attributes
    ----------
    path, name
        Of the sequence's document.
    cards
        Paths of the documents that it was rehearsed with, by kind.
    names
        Their names, by kind.
    papers
        Paths of every document that it was rehearsed with, methods and columns included.
    begins
        Start on the clock of the lab; None if the sequence does not say it.
    duration
        Of the sequence [s]; None if it is not known.
    draw
        CO2 that it takes; None if it is not known.
    usable, fresh
        What the cylinder gives as its card states it, and when freshly filled; None if it is not
        known or does not apply.
    weighed
        Day of the card's mass.
    bottles, vessels
        What it takes from each bottle and adds to each waste vessel.
    wanted, left
        State of the bench that its first line starts in, and in which its lines leave it.
    expected
        State that it states to find.
    makes_ready
        Time [s] with flow before the first line, and whether the modifier line is purged.
    co2_flow
        Highest mass flow of CO2 [kg/s].
    unattended
        Time with nobody in the room [s]; None if it is not known.
    held
        Whether it is a draft or retired: not planned.
    """

    path: str
    name: str
    cards: Mapping[str, str]
    names: Mapping[str, str]
    papers: frozenset[str]
    begins: datetime.datetime | None = None
    duration: float | None = None
    draw: Co2Draw | None = None
    usable: UsableLiquid | None = None
    fresh: UsableLiquid | None = None
    weighed: datetime.date | None = None
    bottles: tuple[StoreUse, ...] = ()
    vessels: tuple[StoreUse, ...] = ()
    columns: tuple[ColumnUse, ...] = ()
    samples: tuple[TraySample, ...] = ()
    wanted: BenchState = field(default_factory=BenchState)
    left: BenchState = field(default_factory=BenchState)
    expected: BenchState = field(default_factory=BenchState)
    makes_ready: tuple[float, bool] = (0.0, False)
    co2_flow: float = 0.0
    unattended: float | None = None
    held: bool = False

    @property
    def ends(self) -> datetime.datetime | None:
        """End on the clock of the lab; None if it is not known."""
        return None if self.duration is None else self.at(self.duration)

    def at(self, clock: float) -> datetime.datetime | None:
        """Moment at so many seconds [s] after the start; None without a start."""
        if self.begins is None:
            return None
        return clock_at(self.begins, clock)
