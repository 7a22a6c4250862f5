"""Fractions of a preparative method on the card: windows, vessels, what a gram takes."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.kinds.instrument import Collector
from methodlint.documents.quantities.format import counted, number, show
from methodlint.judging.case import BatchCase, RunCase
from methodlint.rehearsal.batch.collected import Collected, collected_in
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.batch.lines import LineRun
from methodlint.reports.card.blocks import Table

__all__ = ["collection_block"]

_FULL = 0.9
_BOX = "[______]"


def collection_block(case: BatchCase, name: str, run: RunCase) -> Table | None:
    """Lay out what one method collects; None if it collects nothing."""
    method = run.method
    if method is None or method.collection is None or run.rehearsal is None:
        return None
    found = collected_in(case.batch, name, run.rehearsal, method)
    if not found:
        return None
    collector = run.instrument.collector if run.instrument is not None else None
    each = method.collection.vessels_per_fraction
    rows = []
    for one in found:
        peak = method.collection.fractions[one.index].peak
        rows.append(
            (
                f"{one.index + 1} {peak or ''}".strip(),
                show(one.begins, "time", "min").removesuffix(" min"),
                show(one.ends, "time", "min").removesuffix(" min"),
                _ml(one.liquid),
                _ml(one.total / each),
                _change(case, name, one, each, collector),
            )
        )
    headers = ("fraction", "opens min", "closes", "mL each", "vessel mL", "")
    foot = (*_throughput(case, name, run, found), ("vessels", _handling(case)))
    return Table("collection", "COLLECTION", name, headers, tuple(rows), frozenset({0, 5}), foot)


def _ml(volume: float) -> str:
    return show(volume, "volume", "mL").removesuffix(" mL")


def _change(
    case: BatchCase, name: str, one: Collected, each: int, collector: Collector | None
) -> str:
    """After how many injections the vessels of a fraction are changed, and when first."""
    if collector is None or collector.vessel_capacity is None:
        return "capacity not on the card"
    room = _FULL * collector.vessel_capacity.si * each
    if one.total <= room:
        return "fits"
    after = int(room / one.liquid)
    if not after:
        return "does not fit"
    first = _clock_after(case, name, after)
    return f"change every {counted(after, 'injection')}{f', first {first}' if first else ''}"


def _clock_after(case: BatchCase, name: str, count: int) -> str:
    """When the injection begins before which vessels are changed first; empty without a start."""
    begins = case.sequence.begins if case.sequence is not None else None
    samples = {line.index for line in _samples(case, name)}
    clocks = [clock for index, clock, _ in case.batch.injection_starts if index in samples]
    if begins is None or count >= len(clocks):
        return ""
    return f"{clock_at(begins, round(clocks[count])):%Y-%m-%d %H:%M}"


def _samples(case: BatchCase, name: str) -> list[LineRun]:
    lines = case.batch.lines
    return [line for line in lines if line.method == name and line.line.kind == "sample"]


def _handling(case: BatchCase) -> str:
    operator = case.sequence.operator if case.sequence is not None else None
    who = f"{operator} changes them" if operator else "who changes them is not named"
    if case.policy.two_persons_at_vessels:
        return (
            f"under gas until closed with a vented cap; {who}, with a second person: "
            f"name {_BOX}, initials {_BOX} {_BOX}"
        )
    return f"under gas until closed with a vented cap; {who}, initials {_BOX}"


def _throughput(
    case: BatchCase, name: str, run: RunCase, found: tuple[Collected, ...]
) -> Iterator[tuple[str, str]]:
    """Sample per hour, and what a gram of it takes; nothing without a concentration."""
    method = run.method
    lines = _samples(case, name)
    time = sum(line.ends - line.begins for line in lines)
    injections = sum(line.injections for line in lines)
    if not time or method is None or method.injection is None:
        return
    yield "rhythm", f"{number(injections / time * 3600.0, 3)} injections an hour"
    level, volume = method.injection.sample_concentration, method.injection.volume
    if level is not None and volume is not None and level.dimension == "mass concentration":
        grams = level.si * volume.si * injections * 1e3
        pumped = sum(line.modifier + line.makeup for line in lines)
        added = sum(one.added * one.injections for one in found)
        solvent = show((pumped + added) / grams, "volume", "mL")
        co2 = show(sum(line.co2 for line in lines) / grams, "mass", "g")
        hourly = number(grams / time * 3600.0, 3)
        said = f"{hourly} g of sample an hour; a gram takes {solvent} of solvent and {co2} of CO2"
        yield "throughput", said
