"""Samples are injected while they are stable, in a diluent that neither leaves nor parts.

Reason
    A sample that waits on the tray longer than its stability was tested gives a result that
    nobody can defend. A volatile diluent leaves a pierced vial, and what is left is stronger;
    one that parts on the tray is drawn wrong. Diluents that freeze there are judged by
    `solvent.freezes-in-cold-place`.

Unsound
    kind: sequence
    prepared: 2026-11-22T08:00
    stability: 48 h
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}  # <- here

Sound
    kind: sequence
    prepared: 2026-11-24T08:00
    stability: 48 h
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Inject those samples earlier, or prepare them anew before the line that the message names.

Source
    12 hours for a pierced vial of a liquid that boils below 57 degC: common practice, no source.
    Boiling points: CRC Handbook of Chemistry and Physics. Mixing on the tray: as for
    `solvent.pair-not-miscible`.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, NotChecked, When, counted, show
from methodlint.judging.ask.sequence import LineRun, TrayTrouble, tray_troubles, waits_on_tray

SUBJECT = "batch"
CLASSES = ("caution", "note")
NEEDS = ("batch", "sequence.lines")


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the clock with the stability, then look at the diluents on the tray."""
    yield from _stability(case)
    tray = case.get("instrument.autosampler.tray_temperature")
    if tray is None:
        yield case.not_checked("sequence", "instrument.autosampler.tray_temperature")
    plates = case.get("instrument.autosampler")
    for trouble in tray_troubles(case.batch, plates, tray.si if tray is not None else None):
        yield _trouble(case, trouble)


def _stability(case: BatchCase) -> Iterator[Finding | NotChecked]:
    waits = [wait for run in case.batch.lines if (wait := waits_on_tray(case.batch, run))]
    for figure in ("begins", "prepared", "stability"):
        lacking = [wait for wait in waits if getattr(wait, figure) is None]
        if lacking:
            index = lacking[0].run.index
            reason = f"{counted(len(lacking), 'line')} without it, first line {index + 1}"
            yield case.not_checked(case.line_at(index), f"sequence.{figure}", reason)
    late = [wait for wait in waits if wait.late is not None and wait.late > 0.0]
    if not late:
        return
    first = late[0]
    assert first.waited is not None and first.stability is not None and first.late is not None
    run = first.run
    yield case.finding(
        case.line_at(run.index),
        "caution",
        f"{_name(run)} in line {run.index + 1} is injected {show(first.waited, 'time', 'h')} after "
        f"its preparation ({_clock(first.injected)}); it is stable for "
        f"{show(first.stability, 'time', 'h')}, {show(first.late, 'time', 'h')} less; "
        f"late are {len(late)} of {counted(len(waits), 'line')}",
        found=Measure(first.waited / 3600.0, "h"),
        limit=Measure(first.stability / 3600.0, "h"),
        when=When(injection=run.first_injection, last_injection=run.last_injection),
        remedy=f"inject them earlier or prepare them anew before line {run.index + 1}",
        also=(case.at("sequence.prepared"), case.at("sequence.stability")),
    )


def _trouble(case: BatchCase, trouble: TrayTrouble) -> Finding:
    run = trouble.run
    corrected = trouble.kind == "evaporates" and bool(case.get("sequence.internal_standard"))
    return case.finding(
        case.line_at(run.index),
        "note" if corrected else "caution",
        f"line {run.index + 1}: {trouble.words}",
        when=When(injection=run.first_injection, last_injection=run.last_injection),
        remedy=trouble.remedy,
    )


def _name(run: LineRun) -> str:
    return f"'{run.line.sample}'" if run.line.sample else f"the {run.line.kind}"


def _clock(moment: datetime.datetime | None) -> str:
    return moment.strftime("%Y-%m-%d %H:%M") if moment is not None else "not known"
