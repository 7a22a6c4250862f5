"""Sequences in the order of their starts: who shares what, and what is left for whom."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from methodlint.rehearsal.bench.co2_supply import CylinderEnd, liquid_end
from methodlint.rehearsal.calendar.booking import Booking, StoreUse

__all__ = ["Calendar", "CylinderTurn", "StoreTurn"]

WEEK = datetime.timedelta(days=7)
"""How far back a level without a date of its own applies; common practice, no source."""


@dataclass(frozen=True, slots=True)
class CylinderTurn:
    """One sequence at its supply, after those that drew from it before.

    Attributes
    ----------
    number
        Cylinder that it starts with, counted from 1: the one of the card.
    before
        Sequences that have drawn from that cylinder, and what they took together [kg].
    end
        When its liquid ends during this sequence, what others took included.
    alone
        Whether the sequence would empty a cylinder without the others.
    left
        Expected to be left after it, or in the cylinder that replaces the empty one [kg]; None if
        no full one is known.
    """

    booking: Booking
    number: int
    before: tuple[Booking, ...]
    taken: float
    end: CylinderEnd
    alone: bool
    left: float | None

    @property
    def empties(self) -> bool:
        """Whether the liquid is expected to end, or may end, during the sequence."""
        return self.end.not_before is not None or self.end.expected_first is not None


@dataclass(frozen=True, slots=True)
class StoreTurn:
    """One sequence at a bottle or a waste vessel, after those that used it before.

    Attributes
    ----------
    before
        Sequences that used it before, and what they took or added together [m3].
    clock
        Clock [s] of the sequence at which the bottle is empty or the vessel full; None if that does not happen.
    early
        The same in the worst case of the metering.
    alone
        Whether it happens without the others too.
    """

    booking: Booking
    use: StoreUse
    before: tuple[Booking, ...]
    taken: float
    clock: float | None
    early: float | None
    alone: bool


class Calendar:
    """Planned sequences of a lab.

    Parameters
    ----------
    bookings
        Sequences; drafts and retired ones are left out.
    first_day
        Sequences that have ended before this day are over; None for all.
    """

    def __init__(self, bookings: Iterable[Booking], first_day: datetime.date | None = None) -> None:
        planned = [one for one in bookings if not one.held]
        self.undated = sorted(
            (one for one in planned if one.begins is None), key=lambda one: one.path
        )
        dated = [one for one in planned if one.begins is not None]
        if first_day is not None:
            dated = [one for one in dated if (one.ends or _start(one)).date() >= first_day]
        self.dated = sorted(dated, key=lambda one: (_start(one), one.path))

    @property
    def shared(self) -> bool:
        """Whether there are several dated sequences."""
        return len(self.dated) > 1

    @cached_property
    def undated_sharing(self) -> list[Booking]:
        """Sequences without a start on a bench or a supply that another sequence uses."""
        everything = (*self.dated, *self.undated)
        return [
            one
            for one in self.undated
            if any(
                one.cards.get(kind) is not None and one.cards[kind] == other.cards.get(kind)
                for kind in ("instrument", "supply")
                for other in everything
                if other is not one
            )
        ]

    def concerns(self, booking: Booking) -> bool:
        """Whether another sequence shares a bench, a supply, bottles or a room with this one."""
        everything = (*self.dated, *self.undated)
        return any(
            card == other.cards.get(kind)
            for kind, card in booking.cards.items()
            for other in everything
            if other is not booking
        )

    def sharing(self, kind: str, booking: Booking) -> list[Booking]:
        """Dated sequences that use the same card of a kind, this one included."""
        card = booking.cards.get(kind)
        return [one for one in self.dated if card is not None and one.cards.get(kind) == card]

    def earlier(self, kind: str, booking: Booking) -> list[Booking]:
        """Those of them that start before it."""
        found: list[Booking] = []
        if booking.begins is None:
            return found
        for one in self.sharing(kind, booking):
            if one is booking:
                break
            found.append(one)
        return found

    def overlapping(self, kind: str, booking: Booking) -> Iterator[tuple[Booking, float]]:
        """Earlier sequences on the same card that have not ended when it starts, by how much [s]."""
        for one in self.earlier(kind, booking):
            if one.ends is not None:
                over = (min(one.ends, booking.ends or one.ends) - _start(booking)).total_seconds()
                if over > 0.0:
                    yield one, over

    def previous(self, booking: Booking) -> Booking | None:
        """Sequence on the same bench that starts last before it."""
        return next(reversed(self.earlier("instrument", booking)), None)

    # Ledgers -------------------------------------------------------------------------------

    @cached_property
    def _cylinders(self) -> dict[str, CylinderTurn]:
        found: dict[str, CylinderTurn] = {}
        done: set[str] = set()
        for booking in self.dated:
            card = booking.cards.get("supply")
            if card is not None and card not in done:
                done.add(card)
                for turn in _turns_at_supply(self.sharing("supply", booking)):
                    found[turn.booking.path] = turn
        return found

    def cylinder(self, booking: Booking) -> CylinderTurn | None:
        """Turn of a sequence at its supply; None if amounts or starts are not known."""
        return self._cylinders.get(booking.path)

    @cached_property
    def _stores(self) -> dict[str, list[StoreTurn]]:
        found: dict[str, list[StoreTurn]] = {}
        for kind in ("solvents", "room"):
            done: set[str] = set()
            for booking in self.dated:
                card = booking.cards.get(kind)
                if card is not None and card not in done:
                    done.add(card)
                    for turn in _turns_at_stores(self.sharing(kind, booking), kind):
                        found.setdefault(f"{kind} {turn.booking.path}", []).append(turn)
        return found

    def bottles(self, booking: Booking) -> list[StoreTurn]:
        """Turns of a sequence at the bottles that it uses."""
        return self._stores.get(f"solvents {booking.path}", [])

    def vessels(self, booking: Booking) -> list[StoreTurn]:
        """Turns of a sequence at the waste vessels that it fills."""
        return self._stores.get(f"room {booking.path}", [])


def _start(booking: Booking) -> datetime.datetime:
    assert booking.begins is not None
    return booking.begins


def _turns_at_supply(bookings: Iterable[Booking]) -> Iterator[CylinderTurn]:
    """Take the sequences' CO2 from the cylinder, and from a full one once it is empty."""
    number, taken, before = 1, 0.0, list[Booking]()
    for booking in bookings:
        if booking.draw is None or booking.usable is None:
            continue
        if booking.weighed is not None and _start(booking).date() < booking.weighed:
            continue  # drawn before the cylinder was weighed
        full = booking.usable if number == 1 else booking.fresh
        if full is None:
            return
        alone = liquid_end(full, booking.draw)
        end = liquid_end(full, booking.draw, taken) if taken else alone
        by_itself = alone.expected_first is not None or alone.not_before is not None
        turn = CylinderTurn(booking, number, tuple(before), taken, end, by_itself, -end.short)
        if turn.empties:
            # The full cylinder is connected before the start, which is what is advised.
            left = None
            if booking.fresh is not None:
                left = booking.fresh.expected - booking.draw.demand
            yield CylinderTurn(booking, number, tuple(before), taken, end, by_itself, left)
            number, taken, before = number + 1, booking.draw.demand, [booking]
            continue
        yield turn
        taken += booking.draw.demand
        before.append(booking)


def _turns_at_stores(bookings: Iterable[Booking], kind: str) -> Iterator[StoreTurn]:
    """Add up bottle by bottle, or vessel by vessel; one that is used up is dealt with and starts anew."""
    taken: dict[int, list[tuple[Booking, float]]] = {}
    for booking in bookings:
        for use in booking.bottles if kind == "solvents" else booking.vessels:
            if use.since is not None and _start(booking).date() < use.since:
                continue
            known = taken.setdefault(use.number, [])
            if not use.dated:
                recent = _start(booking) - WEEK
                known[:] = [entry for entry in known if _start(entry[0]) > recent]
            before = sum(volume for _, volume in known)
            clock = use.clock_when(use.usable - before)
            early = use.clock_when(use.usable / (1.0 + use.band) - before)
            alone = use.clock_when(use.usable / (1.0 + use.band)) is not None
            if use.first_need > 0.0:
                who = tuple(one for one, _ in known)
                yield StoreTurn(booking, use, who, before, clock, early, alone)
            if use.refilled or early is not None:
                known.clear()
            if use.left_taken > 0.0:
                known.append((booking, use.left_taken))
