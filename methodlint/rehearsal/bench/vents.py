"""What the instruments give off into the room, through which outlets, and how fast air changes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from methodlint.documents.contents.bottle_roles import makeup_bottle
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.room import OtherVent, Outlet, Room
from methodlint.documents.kinds.solvents import Solvents
from methodlint.documents.text.visible import excerpt
from methodlint.fluids.liquids.known import LiquidRecord, find_liquid
from methodlint.rehearsal.batch.lines import Batch
from methodlint.rehearsal.bench.staffed_hours import ClockSpan
from methodlint.rehearsal.plan.run_plan import components_of
from methodlint.rehearsal.run.rehearsal import Rehearsal

CO2_OUTLETS = frozenset({"separator", "MS exhaust", "waste bottle", "collector", "other"})
"""Outlets that CO2 of the mobile phase can take; a rough pump carries next to none of it."""


@dataclass(frozen=True, slots=True)
class AirChange:
    """Fresh air during a part of the sequence.

    Attributes
    ----------
    rate
        Fresh air per room volume [1/s].
    path
        Where the room card gives it.
    words
        When it holds.
    """

    rate: float
    path: tuple[str | int, ...]
    words: str


def outlets_with(room: Room, ducted: bool | None) -> tuple[tuple[int, Outlet], ...]:
    """Outlets that carry CO2 and are ducted, open, or neither declared."""
    return tuple(
        (index, outlet)
        for index, outlet in enumerate(room.outlets)
        if outlet.of in CO2_OUTLETS and outlet.ducted is ducted
    )


_OF_REGULATOR = frozenset({"separator", "collector", "other"})


def unlisted_vent(room: Room, instrument: Instrument | None) -> str:
    """Say why the outlet that takes the mobile phase's CO2 is not among those of a room.

    Parameters
    ----------
    room
        Its outlets are listed; a list that is empty is a missing figure.
    instrument
        Its card says where the regulator vents to.

    Returns
    -------
    str
        Empty if the outlet is listed.
    """
    regulator = instrument.regulator if instrument is not None else None
    listed = {outlet.of for outlet in room.outlets}
    if regulator is not None and regulator.vents_to is not None:
        names = {name.casefold() for outlet in room.outlets for name in (outlet.name, outlet.of)}
        if regulator.vents_to.strip().casefold() in names:
            return ""
        return f"the regulator vents to '{excerpt(regulator.vents_to)}', which is not listed"
    possible = _OF_REGULATOR
    separation = regulator.gas_separation if regulator is not None else None
    if separation != "vented separator":
        possible = possible | {"waste bottle"}
    if separation is None and instrument is not None and instrument.ms is not None:
        possible = possible | {"MS exhaust"}
    return "" if listed & possible else "the outlet of the mobile phase's CO2 is not listed"


def highest_co2_flow(batch: Batch) -> float:
    """Highest CO2 mass flow of any method of a sequence [kg/s]; 0 if nothing was rehearsed."""
    return max((_highest(run) for run in batch.runs.values()), default=0.0)


def _highest(run: Rehearsal) -> float:
    return float(run.co2_mass_flow.max()) if run.metered else 0.0


def vents_of_others(room: Room, instrument: str | None) -> tuple[OtherVent, ...]:
    """Vents of other instruments; one card serves the whole room, this instrument included."""
    return tuple(vent for vent in room.other_vents if vent.instrument != instrument)


def co2_into_room(room: Room, own: float, instrument: str | None = None) -> float:
    """CO2 that enters the room [kg/s].

    Parameters
    ----------
    own
        CO2 flow of the instrument [kg/s]; all of it counts if one of its outlets is open, since
        the split between outlets is not known.
    instrument
        Name of its card, whose entry among the others is not counted beside `own`.
    """
    others = sum(vent.mass_flow.si for vent in vents_of_others(room, instrument))
    return others + (own if outlets_with(room, False) else 0.0)


def air_changes_during(
    room: Room, unstaffed: tuple[ClockSpan, ...] | None, duration: float
) -> Iterator[AirChange | str]:
    """Air changes that hold during a sequence.

    Parameters
    ----------
    unstaffed
        Spans outside the staffed hours; None if the clock is not known, in which case the
        night counts as reached where the card has a figure for it.
    duration
        Of the sequence [s].

    Yields
    ------
    AirChange or str
        The path of a figure, `room.air_changes`, where it is missing.
    """
    night = sum((span.ends - span.begins).total_seconds() for span in unstaffed or ())
    if unstaffed is None or not unstaffed or night < duration:
        if room.air_changes is None:
            yield "room.air_changes"
        else:
            yield AirChange(room.air_changes.si, ("air_changes",), "in staffed hours")
    at_night = room.air_changes_at_night
    if unstaffed is None:
        if at_night is not None:
            words = "at night, should the run reach it"
            yield AirChange(at_night.si, ("air_changes_at_night",), words)
    elif unstaffed:
        if at_night is None:
            yield "room.air_changes_at_night"
        else:
            words = f"outside staffed hours ({unstaffed[0].words})"
            yield AirChange(at_night.si, ("air_changes_at_night",), words)


def liquid_flows(
    run: Rehearsal, method: Method, solvents: Solvents | None
) -> tuple[dict[str, tuple[LiquidRecord, float]], tuple[str, ...]]:
    """Highest flow of each liquid of a run, modifier and makeup together.

    Parameters
    ----------
    solvents
        Bottles, for a makeup that is only named by its line.

    Returns
    -------
    flows
        Liquid and volume flow [m3/s] by its name; water is left out.
    unknown
        Names that no liquid is known by.
    """
    parts: list[tuple[str, float]] = []
    phase = method.mobile_phase
    if phase is not None and phase.modifier is not None and run.metered:
        highest = float((run.set_flow * run.pumped_share).max())
        parts += [(name, highest * share) for name, share in components_of(phase.modifier)]
    makeup = method.makeup
    if makeup is not None:
        rows = [row.flow.si for row in makeup.programme]
        flow = max(rows, default=makeup.flow.si if makeup.flow else 0.0)
        contents = components_of(makeup)
        if not contents and solvents is not None:
            index = makeup_bottle(solvents.bottles, makeup)
            contents = components_of(solvents.bottles[index]) if index is not None else ()
        parts += [(name, flow * share) for name, share in contents]
    flows: dict[str, tuple[LiquidRecord, float]] = {}
    unknown: list[str] = []
    for name, flow in parts:
        liquid = find_liquid(name)
        if liquid is None:
            unknown.append(name)
        elif liquid.name != "water" and flow > 0.0:
            flows[liquid.name] = (liquid, flow + flows.get(liquid.name, (liquid, 0.0))[1])
    return flows, tuple(dict.fromkeys(unknown))
