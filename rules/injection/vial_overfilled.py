"""A vial or well is filled with no more than it holds.

Reason
    A fill above the vessel's capacity is most often a slip of the unit. Whoever checks whether the
    vial is enough then counts on liquid that is not there, and the sampler injects air.

Unsound
    kind: sequence
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 300 mL, count: 6}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 300 uL, count: 6}

Remedy
    Write what is in one vial; several like vials are written as `vials: 2`. A larger vessel on
    that plate is named as `vessel` in the line or under `plates`.

Source
    Arithmetic with the capacity that the instrument card gives.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.rule import (
    BatchCase,
    Finding,
    NotChecked,
    When,
    counted,
    microlitres,
    show,
    visible,
)
from methodlint.judging.ask.sequence import LineRun, tray_of

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("sequence.lines",)

_SLIP = 1000.0
_MILLILITRE = 1e-6
_SHOWN = 20


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare every fill with its vessel; like slips in many lines are one finding."""
    tray = tray_of(case.get("instrument.autosampler"), case.sequence)
    over: dict[tuple[str, float, float], list[LineRun]] = {}
    unknown: list[LineRun] = []
    for run in case.batch.lines:
        fill = run.line.fill
        if not run.injects or fill is None:
            continue
        vessel = tray.vessel(run.line, tray.place(run.line))
        if vessel is None or vessel.capacity is None:
            unknown.append(run)
        elif fill.si > vessel.capacity.si * (1.0 + 1e-9):
            out_of_reach = run.line.dead_volume or vessel.dead_volume
            least = out_of_reach.si if out_of_reach is not None else 0.0
            slip = fill.si / _SLIP
            meant = slip if least < slip <= vessel.capacity.si else 0.0
            over.setdefault((vessel.name, vessel.capacity.si, meant), []).append(run)
    for (name, capacity, meant), runs in over.items():
        yield _finding(case, name, capacity, meant, runs)
    if unknown:
        reason = f"{counted(len(unknown), 'fill')} without it, first in line {unknown[0].index + 1}"
        where = case.line_at(unknown[0].index)
        yield case.not_checked(where, "instrument.autosampler.vessels[].capacity", reason)


def _finding(
    case: BatchCase, name: str, capacity: float, meant: float, runs: list[LineRun]
) -> Finding:
    first = runs[0]
    fill = first.line.fill
    assert fill is not None
    others = f" and {counted(len(runs) - 1, 'other')}" if len(runs) > 1 else ""
    holds = _volume(capacity)
    slip = f"; it may be {_volume(meant)}" if meant else ""
    return case.finding(
        case.line_at(first.index, "fill"),
        "fault",
        f"line {first.index + 1}{others}: filled with {fill.text}, a vessel of {visible(name)} "
        f"holds {holds}{slip}",
        found=microlitres(fill.si),
        limit=microlitres(capacity),
        when=When(injection=first.first_injection, last_injection=runs[-1].last_injection),
        remedy=f"write what is in one vial, at most {holds}, or name the vessel that is there",
        also=tuple(case.line_at(run.index, "fill") for run in runs[1:_SHOWN]),
    )


def _volume(volume: float) -> str:
    return show(volume, "volume", "mL" if volume >= _MILLILITRE else "uL")
