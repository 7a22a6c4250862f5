"""All that the card of one sequence says, block by block in the order of use."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from methodlint.documents.quantities.format import show
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.reports.card.blocks import Block, CardRows
from methodlint.reports.card.collection import collection_block
from methodlint.reports.card.consumption import bottle_block, co2_block, vial_block, waste_block
from methodlint.reports.card.handling import (
    caution_block,
    emergency_block,
    found_block,
    left_block,
)
from methodlint.reports.card.pressures import pressure_block
from methodlint.reports.card.read_back import (
    amounts_block,
    read_back_block,
    record_block,
    sequence_read_back,
)
from methodlint.reports.card.room import room_block
from methodlint.reports.card.start_stop import start_block, stop_block

__all__ = ["PREDICTED", "SIGNATURE", "card_blocks", "clock_words"]

PREDICTED = "predicted; verify on the instrument"
SIGNATURE = "Read and understood: name ____________________  date ____________"


def card_blocks(case: BatchCase) -> list[Block]:
    """Lay out one sequence; what its documents do not give is left out or named."""
    blocks: list[Block | None] = [bench_block(case), found_block(case)]
    blocks += [pressure_block(name, run) for name, run in case.runs.items()]
    blocks += [collection_block(case, name, run) for name, run in case.runs.items()]
    blocks += [
        co2_block(case),
        bottle_block(case),
        waste_block(case),
        vial_block(case),
        amounts_block(case),
        room_block(case),
        *(read_back_block(name, run) for name, run in case.runs.items()),
        sequence_read_back(case),
        record_block(),
        start_block(case),
        stop_block(case),
        left_block(case),
        emergency_block(case),
        caution_block(case),
    ]
    return [block for block in blocks if block is not None]


def bench_block(case: BatchCase) -> CardRows:
    """Who, where, when."""
    sequence = case.sequence
    assert sequence is not None
    rows = []
    operator = ", ".join(text for text in (sequence.operator, sequence.phone) if text)
    rows.append(("operator", operator or "not named"))
    if "instrument" in case.documents:
        rows.append(("instrument", case.documents["instrument"].name))
    columns = dict.fromkeys(column.name for run in case.runs.values() for column in run.columns)
    if columns:
        rows.append(("column", ", ".join(columns)))
    rows.append(("injections", f"{case.batch.injections} in {len(case.batch.lines)} lines"))
    rows += _stacks(case)
    rows.append(("takes", clock_words(case)))
    slot = _slot_words(case)
    if slot:
        rows.append(("booked", slot))
    return CardRows("bench", "BENCH", tuple(rows))


def clock_words(case: BatchCase) -> str:
    """How long a sequence takes, from when to when."""
    batch, sequence = case.batch, case.sequence
    if batch.missing:
        return f"not known: {', '.join(item.where for item in batch.missing)} missing"
    text = show(batch.duration, "time", "h")
    begins = sequence.begins if sequence is not None else None
    return f"{text}, {_span_words(begins, batch.duration)}" if begins is not None else text


def _span_words(begins: datetime.datetime, seconds: float) -> str:
    end = clock_at(begins, round(seconds))
    last = f"{end:%H:%M}" if end.date() == begins.date() else f"{end:%Y-%m-%d %H:%M}"
    return f"{begins:%Y-%m-%d %H:%M} to {last}"


def _slot_words(case: BatchCase) -> str:
    slot = case.sequence.slot if case.sequence is not None else None
    if slot is None:
        return ""
    if slot.open_ended:
        return "open end"
    begins = slot.begins or (case.sequence.begins if case.sequence else None)
    if slot.length is None:
        return ""
    text = show(slot.length.si, "time")
    if begins is None:
        return text
    return _span_words(begins, slot.length.si)


def _stacks(case: BatchCase) -> Iterator[tuple[str, str]]:
    stacked = [line for line in case.batch.lines if line.stacked_every]
    for name in dict.fromkeys(line.method for line in stacked):
        lines = [line for line in stacked if line.method == name]
        count = sum(line.injections for line in lines)
        every = show(lines[0].stacked_every, "time", "min")
        yield "stacked", f"{count} injections of {name}, one every {every}"
