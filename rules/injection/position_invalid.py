"""Every position lies on the plate or tray that is there.

Reason
    A well that the plate does not have stops the sampler in the middle of the sequence, or sends
    the needle off the plate. On one plate `A1`, `A01` and `a1` are the same place.

Unsound
    kind: sequence
    plates: {"1": 96-well}
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: A13, fill: 200 uL}  # <- here

Sound
    kind: sequence
    plates: {"1": 96-well}
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: H12, fill: 200 uL}
      - {kind: sample, sample: extract 2, plate: 1, well: a01, fill: 200 uL}

Remedy
    Look at the tray; the message names the valid places next to the one written.

Source
    Rows and columns of microplates: ANSI/SLAS 4-2004 (unverified). Other trays: the instrument card.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, When, counted, visible
from methodlint.judging.ask.sequence import LineRun, Tray, geometry_of, nearest_places, tray_of

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("sequence.lines",)

_REPORTED_SINGLY = 20


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Look every line's place up on the plate that it names."""
    tray = tray_of(case.get("instrument.autosampler"), case.sequence)
    wrong: dict[tuple[str, str], tuple[LineRun, str, str]] = {}
    unknown: dict[str, int] = {}
    absent: dict[str, list[LineRun]] = {}
    for run in case.batch.lines:
        if not run.injects:
            continue
        if run.line.well is None:
            unknown.setdefault("sequence.lines[].well", run.index)
            continue
        key = (run.line.plate or "", run.line.well)
        if key in wrong:
            continue
        plate = _absent_plate(tray, run)
        if plate is not None:
            absent.setdefault(plate, []).append(run)
            continue
        said = _wrong(tray, run)
        if isinstance(said, str):
            unknown.setdefault(said, run.index)
        elif said is not None:
            wrong[key] = (run, *said)
    for plate, runs in absent.items():
        first = runs[0]
        others = f" and {counted(len(runs) - 1, 'other')}" if len(runs) > 1 else ""
        yield case.finding(
            case.line_at(first.index, "well"),
            "fault",
            f"line {first.index + 1}{others}: there is no plate {visible(plate)}",
            when=When(injection=first.first_injection, last_injection=runs[-1].last_injection),
            remedy=f"plates that are in the sampler: {', '.join(sorted(tray.plates))}",
        )
    for run, message, remedy in list(wrong.values())[:_REPORTED_SINGLY]:
        yield case.finding(
            case.line_at(run.index, "well"),
            "fault",
            f"line {run.index + 1}: {message}",
            when=When(injection=run.first_injection, last_injection=run.last_injection),
            remedy=remedy,
        )
    if len(wrong) > _REPORTED_SINGLY:
        run = list(wrong.values())[_REPORTED_SINGLY][0]
        yield case.finding(
            case.line_at(run.index, "well"),
            "fault",
            f"{len(wrong) - _REPORTED_SINGLY} further places lie on no plate, "
            f"the first of them in line {run.index + 1}",
            remedy="look at the kind of plate that the sequence or the instrument card names",
        )
    for figure, index in unknown.items():
        yield case.not_checked(case.line_at(index), figure, f"needed first in line {index + 1}")


def _absent_plate(tray: Tray, run: LineRun) -> str | None:
    """Give the plate that a line names and that does not stand in the sampler."""
    place = tray.place(run.line)
    if place is None or not tray.plates or place.plate in tray.plates:
        return None
    return None if run.line.plate is None and len(tray.plates) > 1 else place.plate


def _wrong(tray: Tray, run: LineRun) -> tuple[str, str] | str | None:
    """What is wrong with a line's place and what to do; or the figure that is missing."""
    line = run.line
    written = f"'{line.well}'"
    place = tray.place(line)
    if not tray.plates:
        return "instrument.autosampler.plates"
    if place is not None and place.plate not in tray.plates:
        return "sequence.lines[].plate"
    plate = place.plate if place is not None else None
    if plate is None:
        return f"{written} is no place on a plate or tray", "write a row and a column, such as A1"
    vessel = tray.plates[plate]
    geometry = geometry_of(tray.vessels.get(vessel), vessel)
    if geometry is None:
        return f"instrument.autosampler.vessels: rows and columns of '{vessel}'"
    assert place is not None
    if geometry.holds(place.well):
        return None
    near = ", ".join(nearest_places(geometry, place.well))
    return (
        f"{place.well.name} is not on plate {plate} ({vessel}: {geometry.words})",
        f"nearest valid places: {near}" if near else f"valid places: {geometry.words}",
    )
