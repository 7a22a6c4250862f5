"""The end of the CO2 as the bench sees it: which way it is drawn, and who draws beside."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.documents.kinds.supply import OtherBooking
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.bench.co2_store import gas_alone, pressure_needed
from methodlint.rehearsal.bench.co2_supply import CylinderEnd, cylinder_end, draws_vapour

__all__ = ["SupplyEnd", "bookings_of_others", "others_draw", "others_sharing", "supply_end"]


@dataclass(frozen=True, slots=True)
class SupplyEnd:
    """What is known of the end of a supply.

    Attributes
    ----------
    end
        None if it is not known or does not arise; `why` says which.
    vapour
        The pump condenses vapour.
    inlet_pressure
        Lowest pressure that such a pump still draws at [Pa, abs]; None for a dip tube.
    """

    end: CylinderEnd | None
    vapour: bool = False
    inlet_pressure: float | None = None
    why: str = ""


def supply_end(case: BatchCase) -> SupplyEnd:
    """Find when the CO2 of a sequence ends, by the way in which it is drawn."""
    supply = case.supply
    if supply is None:
        return SupplyEnd(None, why="no supply card")
    if supply.withdrawal == "bulk":
        return SupplyEnd(None, why="bulk tank: its own level shows it")
    vapour = draws_vapour(supply)
    if vapour is None:
        return SupplyEnd(None, why="not known: the card does not say whether liquid is drawn")
    lowest = None
    if vapour:
        head = case.get("instrument.co2_pump.head_temperature")
        if head is None:
            return SupplyEnd(None, True, why="not known: instrument.co2_pump.head_temperature")
        lowest = pressure_needed(head.si, supply.line_loss.si if supply.line_loss else 0.0)
    elif gas_alone(supply):
        return SupplyEnd(None, why="there is no liquid in the cylinder at this temperature")
    kept = case.policy.cylinder_heel
    end = cylinder_end(case.documents["supply"], case.batch, kept.si if kept else 0.0, lowest)
    if end is None:
        needed = ("net_mass", "water_capacity", "store_temperature")
        lacks = [f"supply.{name}" for name in needed if getattr(supply, name) is None]
        lacks += [item.where for item in case.batch.missing]
        if not lacks:
            return SupplyEnd(
                None, vapour, lowest, "not known: more CO2 than a cylinder is filled with"
            )
        return SupplyEnd(None, vapour, lowest, f"not known: {', '.join(lacks)} missing")
    return SupplyEnd(end, vapour, lowest)


def bookings_of_others(case: BatchCase) -> tuple[OtherBooking, ...]:
    """Bookings of the supply without this sequence's own instrument: one card serves them all."""
    own = case.sequence.instrument if case.sequence is not None else None
    bookings = case.supply.bookings if case.supply is not None else ()
    return tuple(booking for booking in bookings if booking.instrument != own)


def others_sharing(case: BatchCase) -> tuple[str, ...]:
    """Other instruments on the same supply."""
    own = case.sequence.instrument if case.sequence is not None else None
    shared = case.supply.shared_with if case.supply is not None else ()
    return tuple(name for name in shared if name != own)


def others_draw(case: BatchCase) -> float:
    """CO2 that others have booked from the same supply [kg]."""
    return sum(booking.mass.si for booking in bookings_of_others(case) if booking.mass is not None)
