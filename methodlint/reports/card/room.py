"""The room on the card: every vent outlet, what settles in the air, who else vents there."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.kinds.room import Outlet
from methodlint.documents.quantities.format import show
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.bench.room_exposure import room_exposure, vented_vapours
from methodlint.rehearsal.bench.staffed_hours import unstaffed_spans, weekend_not_stated
from methodlint.rehearsal.bench.vent_line import vent_loss
from methodlint.rehearsal.bench.vent_vapour import steady_vapour_fraction
from methodlint.rehearsal.bench.vents import (
    AirChange,
    air_changes_during,
    highest_co2_flow,
    vents_of_others,
)
from methodlint.reports.card.blocks import Alert, CardRows

__all__ = ["room_block"]

_WORTH_SAYING = 0.01e5


def room_block(case: BatchCase) -> CardRows | None:
    """Lay out vents, air and watch; None if no room card is named."""
    if case.room is None:
        return None
    return CardRows("room", "ROOM AND VENTS", tuple(_rows(case)))


def _rows(case: BatchCase) -> Iterator[tuple[str, str]]:
    room = case.room
    assert room is not None
    flow = highest_co2_flow(case.batch)
    if flow > 0.0:
        yield "CO2 vented", f"up to {show(flow, 'mass flow')}"
    for ducted, label in (
        (False, Alert("OPEN TO THE ROOM")),
        (None, "not said if ducted"),
        (True, "ducted"),
    ):
        outlets = [_outlet(each) for each in room.outlets if each.ducted is ducted]
        if outlets:
            yield label, ", ".join(outlets)
    yield from _vent_line(case, flow)
    for vent in vents_of_others(room, case.batch.typed.instrument):
        yield (
            "others",
            f"{vent.instrument} vents {show(vent.mass_flow.si, 'mass flow')} into this room",
        )
    if case.supply is not None and not case.batch.missing:
        yield from _air(case)
    if room.monitors:
        said = []
        for monitor in room.monitors:
            tested = f", tested {monitor.tested}" if monitor.tested else ", test not noted"
            where = f" {monitor.place}" if monitor.place else ""
            said.append(f"{monitor.gas}{where}{tested}")
        yield "monitor", "; ".join(said)
    elif room.monitors is not None:
        yield "monitor", "none"
    yield from _watch(case)


def _outlet(outlet: Outlet) -> str:
    more = [text for text in (outlet.of if outlet.of != outlet.name else None, outlet.trap) if text]
    return f"{outlet.name} ({', '.join(more)})" if more else outlet.name


def _vent_line(case: BatchCase, own: float) -> Iterator[tuple[str, str]]:
    line = case.instrument.vent_line if case.instrument is not None else None
    if line is None or line.length.si <= 0.0 or line.bore.si <= 0.0 or own <= 0.0:
        return
    other = line.others.si if line.others is not None else 0.0
    loss = vent_loss(own + other, line.length.si, line.bore.si).loss
    shared = f", {show(other, 'mass flow')} of others in it" if other else ""
    held = show(loss, "pressure") if loss >= _WORTH_SAYING else "negligible"
    yield "vent line", f"back pressure {held} at the highest flow{shared}"


def _air(case: BatchCase) -> Iterator[tuple[str, str]]:
    supply, room = case.supply, case.room
    assert supply is not None and room is not None
    exposure = room_exposure(supply, case.documents["room"], case.batch)
    limits = case.policy.exposure_limits
    limit = (limits.co2_long or limits.co2_short) if limits is not None else None
    against = f", limit of the lab {show(limit.si, 'ppm')}" if limit is not None else ""
    if exposure.steady is not None:
        yield "CO2 in the air", f"settles at {show(exposure.steady, 'ppm')}{against}"
    if exposure.release:
        yield (
            "if all leaks out",
            f"{100.0 * exposure.release:.1f} % CO2 in the room: leave at once, close the door",
        )
    yield from _vapours(case)


def _vapours(case: BatchCase) -> Iterator[tuple[str, str]]:
    room, sequence = case.room, case.sequence
    assert room is not None and sequence is not None
    warmest = room.highest_temperature
    if room.volume is None or warmest is None:
        return
    unstaffed = unstaffed_spans(room, sequence.begins, case.batch.duration)
    rates = [
        air.rate
        for air in air_changes_during(room, unstaffed, case.batch.duration)
        if isinstance(air, AirChange)
    ]
    methods = {name: run.method for name, run in case.runs.items() if run.method}
    found = vented_vapours(case.batch, methods, case.solvents, room, warmest.si)
    for name, flow in found.items():
        if flow is None:
            yield "solvent vapour", f"{name}: not known"
        elif rates:
            level = steady_vapour_fraction(flow, room.volume.si, min(rates), warmest.si)
            yield "solvent vapour", f"{name} settles at up to {show(level, 'ppm')}; flammable"


def _watch(case: BatchCase) -> Iterator[tuple[str, str]]:
    room, sequence = case.room, case.sequence
    assert room is not None and sequence is not None
    if case.batch.missing:
        return
    spans = unstaffed_spans(room, sequence.begins, case.batch.duration)
    if spans is None:
        return
    if not spans:
        weekend = weekend_not_stated(room, sequence.begins, case.batch.duration)
        if weekend is not None:
            yield "staffed", f"not known for {weekend:%A} {weekend}: the card names no days"
        else:
            yield "staffed", "all the time"
        return
    more = f" and {len(spans) - 1} more" if len(spans) > 1 else ""
    yield "nobody there", f"{spans[0].words}{more}"
