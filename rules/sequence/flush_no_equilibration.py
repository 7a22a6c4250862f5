"""After a flush with the CO2 off the column settles before anything is measured.

Reason
    A flush fills the column with liquid. The first injection after it runs while that is pushed
    out: its peaks come early, or not as those of the standards.

Unsound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, co2: "off", flow: 0.5 mL/min, duration: 10 min}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL}  # <- here
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, co2: "off", flow: 0.5 mL/min, duration: 10 min}
      - {kind: equilibration, duration: 20 min}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Remedy
    Insert an equilibration line of the length that the message gives.

Source
    The dwell volume and 5 hold-up volumes (10 to 20 with an additive): common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import (
    column_volumes_wanted,
    equilibration_volume,
    holds_additive,
)
from methodlint.judging.ask.rule import BatchCase, Finding, RunCase, When, minutes, show
from methodlint.judging.ask.sequence import MEASURING, LineRun, co2_flows

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("batch", "sequence.lines", "sequence.lines[].duration")


def applies(case: BatchCase) -> bool:
    """Only a flush fills the column with liquid."""
    return any(line.line.kind == "flush" for line in case.batch.lines)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Find the first line that measures after each flush, and the time between the two."""
    flush: LineRun | None = None
    for line in case.batch.lines:
        if line.line.kind == "flush" and not line.line.column_bypassed:
            flush = line if co2_flows(line.line) is not True else flush
        if flush is not None and line.line.kind in MEASURING:
            run = case.runs.get(line.method)
            if run is not None and run.rehearsal is not None and run.rehearsal.done:
                yield from _finding(case, flush, line, _needed(run))
            flush = None


def _needed(run: RunCase) -> float:
    flow = float(run.run.set_flow[0])
    share = float(run.run.programme.share[0])
    additive = holds_additive(run.method_liquid())
    volumes = column_volumes_wanted(additive=additive, start_share=share)
    return equilibration_volume(run.run, volumes) / flow if flow > 0.0 else 0.0


def _finding(case: BatchCase, flush: LineRun, line: LineRun, needed: float) -> Iterator[Finding]:
    waited, number = line.begins - flush.ends, line.index + 1
    if waited >= needed * (1.0 - 1e-6):
        return
    length = f"{math.ceil((needed - waited) / 60.0 - 1e-6)} min"
    text = f"put an equilibration of {length} before line {number}"
    step = {"kind": "equilibration", "duration": length, "method": line.method}
    yield case.finding(
        case.line_at(line.index),
        "caution",
        f"line {number} measures {show(waited, 'time', 'min')} after the flush of line "
        f"{flush.index + 1} has filled the column with liquid; to equilibrate takes "
        f"{show(needed, 'time', 'min')}",
        found=minutes(waited),
        limit=minutes(needed),
        when=When(injection=line.first_injection, last_injection=line.first_injection),
        remedy=text,
        candidates=[case.candidate(text, case.change(case.line_at(line.index), step, insert=True))],
        also=(case.line_at(flush.index),),
    )
