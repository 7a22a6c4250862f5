"""From a judged sequence to what the calendar keeps of it."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.kinds.supply import Supply
from methodlint.documents.loading import Loaded
from methodlint.documents.text.visible import visible
from methodlint.judging.case import BatchCase
from methodlint.judging.shared.supply_end import supply_end
from methodlint.judging.shared.waste_of_case import fills_of
from methodlint.rehearsal.batch.bench_state import (
    liquid_words,
    said_state,
    state_left,
    state_wanted,
)
from methodlint.rehearsal.batch.bottles import METERING_BAND, bottle_uses
from methodlint.rehearsal.batch.waiting import waits_on_tray
from methodlint.rehearsal.bench.co2_supply import UsableLiquid, usable_liquid
from methodlint.rehearsal.bench.staffed_hours import unstaffed_spans
from methodlint.rehearsal.bench.vents import highest_co2_flow
from methodlint.rehearsal.calendar.booking import Booking, ColumnUse, StoreUse, TraySample

__all__ = ["booking_of"]


def booking_of(case: BatchCase) -> Booking:
    """Take from a sequence what the calendar needs; what is not known stays out."""
    batch, sequence = case.batch, case.sequence
    assert sequence is not None
    begins = sequence.begins.replace(tzinfo=None) if sequence.begins is not None else None
    documents = {kind: loaded for kind, loaded in case.documents.items() if kind != "sequence"}
    papers = {loaded.path for loaded in case.documents.values()}
    for run in case.runs.values():
        papers |= {loaded.path for loaded in (*run.documents.values(), *run.columns)}
    loaded = case.documents["sequence"]
    known = not batch.missing
    usable, fresh = _cylinders(case) if known else (None, None)
    unattended = None
    if known and case.room is not None:
        spans = unstaffed_spans(case.room, begins, batch.duration)
        if spans is not None:
            unattended = sum((span.ends - span.begins).total_seconds() for span in spans)
    purges = case.solvents is not None and case.solvents.purge_volume is not None
    ready = sum(line.ends - line.begins for line in batch.lines[: _before_first_result(case)])
    return Booking(
        path=loaded.path,
        name=loaded.name,
        cards={kind: card.path for kind, card in documents.items()},
        names={kind: card.name for kind, card in documents.items()},
        papers=frozenset(papers),
        begins=begins,
        duration=batch.duration if known else None,
        draw=batch.co2_draw if known else None,
        usable=usable,
        fresh=fresh,
        weighed=case.supply.weighed if case.supply is not None else None,
        bottles=tuple(_bottles(case)) if known else (),
        vessels=tuple(_vessels(case)) if known else (),
        columns=tuple(_columns(case)),
        samples=tuple(_samples(case)) if known else (),
        wanted=state_wanted(batch),
        left=state_left(batch),
        expected=said_state(sequence.previous),
        makes_ready=(batch.equilibration + ready, purges),
        co2_flow=highest_co2_flow(batch),
        unattended=unattended,
        held=sequence.status in ("draft", "retired"),
    )


def _before_first_result(case: BatchCase) -> int:
    """Number of lines before the first whose result counts."""
    measuring = ("suitability", "calibrator", "control", "sample", "zero")
    lines = case.batch.lines
    return next((n for n, line in enumerate(lines) if line.line.kind in measuring), len(lines))


def _cylinders(case: BatchCase) -> tuple[UsableLiquid | None, UsableLiquid | None]:
    """What the cylinder gives as it is, and what a full one gives."""
    supply = case.supply
    if supply is None or supply.withdrawal == "bulk" or supply.changeover == "automatic":
        return None, None
    found = supply_end(case)
    if found.end is None:
        return None, None
    full = supply.full_mass or (supply.spare_mass if supply.cylinders <= 1 else None)
    if full is None:
        return found.end.usable, None
    as_new: Supply = supply.model_copy(update={"net_mass": full, "used_since_weighed": None})
    heel = case.policy.cylinder_heel
    return found.end.usable, usable_liquid(as_new, heel.si if heel else 0.0, found.inlet_pressure)


def _bottles(case: BatchCase) -> Iterator[StoreUse]:
    solvents = case.documents.get("solvents")
    if solvents is None:
        return
    uses, _ = bottle_uses(case.batch, solvents, case.documents.get("instrument"))
    for use in uses:
        if use.usable is None or use.need <= 0.0 or use.lacking:
            continue
        bottle = use.bottle
        name = f"{liquid_words(bottle) or 'liquid'} on {visible(bottle.line)}"
        since, dated = bottle.filled or bottle.opened, bottle.filled is not None
        history = tuple(use.history)
        yield StoreUse(use.index, name, use.usable, METERING_BAND, history, since, dated)


def _vessels(case: BatchCase) -> Iterator[StoreUse]:
    fills, _ = fills_of(case)
    for fill in fills:
        if fill.volume > 0.0:
            name = visible(fill.vessel.name)
            yield StoreUse(fill.index, name, fill.room_left, METERING_BAND, fill.history)


def _columns(case: BatchCase) -> Iterator[ColumnUse]:
    counts: dict[str, tuple[Loaded, int]] = {}
    for line in case.batch.lines:
        run = case.runs.get(line.method)
        for loaded in run.columns if run is not None and line.injects else ():
            _, before = counts.get(loaded.path, (loaded, 0))
            counts[loaded.path] = loaded, before + line.injections
    for path, (loaded, count) in counts.items():
        log = getattr(loaded.model, "injections", None)
        yield ColumnUse(
            path,
            loaded.name,
            count,
            log.count if log is not None else None,
            log.limit if log is not None else None,
            bool(log is not None and log.limit_is_advisory and log.last_test_passed),
        )


def _samples(case: BatchCase) -> Iterator[TraySample]:
    for line in case.batch.lines:
        wait = waits_on_tray(case.batch, line)
        if wait is None or not line.line.sample:
            continue
        injected = line.last_start
        prepared = wait.prepared.replace(tzinfo=None) if wait.prepared is not None else None
        yield TraySample(
            line.line.sample, line.position, line.index, injected, prepared, wait.stability
        )
