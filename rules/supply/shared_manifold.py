"""A supply that several instruments share serves all of them through the slot.

Reason
    Each user counts on the whole cylinder. Together they empty it in the middle of somebody's
    batch, and gas drawn fast cools its own cylinder until the pressure falls.

Unsound
    kind: supply
    shared_with: [bench-b]
    bookings:
      - {instrument: bench-b, mass: 25 kg}  # <- here

Sound
    kind: supply
    shared_with: [bench-b]
    bookings:
      - {instrument: bench-b, mass: 4 kg}

Sound, because the tank reports its level
    kind: supply
    withdrawal: bulk
    telemetry: true
    shared_with: [bench-b]
    bookings:
      - {instrument: bench-b, mass: 25 kg}

Remedy
    Agree who runs when, or connect another cylinder before the start.

Source
    Common practice, no source; vapour left behind: Span and Wagner, J. Phys. Chem. Ref. Data 25,
    1509 (1996).
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import highest_co2_flow
from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, kilograms, show
from methodlint.judging.ask.supply import (
    bookings_of_others,
    others_draw,
    others_sharing,
    usable_liquid,
)

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("batch", "supply.net_mass", "supply.water_capacity", "supply.store_temperature")

_SELF_COOLING = 0.10 / 3600.0
"""Share of the charge per second that gas withdrawal sustains; common practice, no source."""


def applies(case: BatchCase) -> bool:
    """Only a shared supply; a bulk tank that reports its level is watched by others."""
    supply = case.supply
    if supply is None or not (others_sharing(case) or bookings_of_others(case)):
        return False
    return not (supply.withdrawal == "bulk" and supply.telemetry)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Add up what all of them take, then look at the rate of gas withdrawal."""
    supply = case.supply
    assert supply is not None
    bookings = bookings_of_others(case)
    known = {booking.instrument for booking in bookings if booking.mass is not None}
    wanted = (*others_sharing(case), *(booking.instrument for booking in bookings))
    silent = [name for name in dict.fromkeys(wanted) if name not in known]
    if silent:
        reason = f"what {', '.join(silent)} will draw is not known"
        yield case.not_checked("supply", "supply.bookings", reason)
    others = others_draw(case)
    own = case.batch.co2_demand
    kept = case.policy.cylinder_heel
    usable = usable_liquid(supply, kept.si if kept else 0.0)
    # What this sequence cannot get even alone is said by supply.cylinder-runs-out.
    if usable is not None and own <= usable.expected < own + others:
        who = ", ".join(
            f"{booking.instrument} {show(booking.mass.si, 'mass', 'kg')}"
            + (f" until {booking.ends:%Y-%m-%d %H:%M}" if booking.ends else "")
            for booking in bookings
            if booking.mass is not None
        )
        yield case.finding(
            "supply.bookings",
            "caution",
            f"together they take {show(own + others, 'mass', 'kg')} ({who}, this sequence "
            f"{show(own, 'mass', 'kg')}), {show(usable.expected, 'mass', 'kg')} can be drawn: "
            f"short by {show(own + others - usable.expected, 'mass', 'kg')}; it ends before the "
            f"last of them is served",
            found=kilograms(own + others),
            limit=kilograms(usable.expected),
            remedy="agree who runs when, or connect another cylinder before the start",
        )
    flow, charge = highest_co2_flow(case.batch), supply.net_mass
    if (
        supply.withdrawal == "vapour"
        and charge is not None
        and charge.si > 0.0
        and flow > _SELF_COOLING * charge.si
    ):
        yield case.finding(
            "supply.net_mass",
            "caution",
            f"gas drawn at {show(flow, 'mass flow')} is {100 * flow * 3600 / charge.si:.0f} % of "
            "the charge per hour; above 10 % a cylinder cools itself and its pressure falls",
            remedy="connect more cylinders at the same time",
        )
