"""Controls, the lowest level to report and the samples expected lie within the calibrated range.

Reason
    Outside its levels a calibration is guessed, however straight it looks inside.

Unsound
    kind: sequence
    lines:
      - {kind: calibrator, sample: C1, concentration: 1 mg/mL, plate: 1, well: B1, fill: 1 mL}
      - {kind: calibrator, sample: C2, concentration: 10 mg/mL, plate: 1, well: B2, fill: 1 mL}
      - {kind: sample, sample: extract 1, expected: 40 mg/mL, plate: 1, well: D1, fill: 1 mL}  # <- here

Sound, because the sample is diluted
    kind: sequence
    lines:
      - {kind: calibrator, sample: C1, concentration: 1 mg/mL, plate: 1, well: B1, fill: 1 mL}
      - {kind: calibrator, sample: C2, concentration: 10 mg/mL, plate: 1, well: B2, fill: 1 mL}
      - {kind: sample, sample: extract 1, expected: 40 mg/mL, dilution: 5, plate: 1, well: D1, fill: 1 mL}

Remedy
    Add a level, or dilute the sample by the factor that the message gives and write it down as
    `dilution:`.

Source
    Common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.document import Line
from methodlint.judging.ask.rule import BatchCase, Finding, show
from methodlint.judging.ask.sequence import LineRun, lines_in_words

SUBJECT = "batch"
PARTS = "purpose"
CLASSES = ("caution",)
NEEDS = (
    "sequence.lines",
    "sequence.lines[].level",
    "sequence.lines[].concentration",
    "sequence.lines[].expected",
    "sequence.lines[].dilution",
)


def applies(case: BatchCase) -> bool:
    """A screening asks what is there, not how much."""
    return case.purpose != "screening"


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare what is told in the same terms as the calibrators, method by method."""
    by_method: dict[str, list[LineRun]] = {}
    for line in case.batch.lines:
        by_method.setdefault(line.method, []).append(line)
    for name, lines in by_method.items():
        known: dict[str, list[float]] = {}
        for line in lines:
            if line.line.kind == "calibrator":
                for terms, value in _amounts(line.line):
                    known.setdefault(terms, []).append(value)
        if known:
            yield from _outside(case, lines, known)
            yield from _lowest(case, name, lines, known)


def _amounts(line: Line) -> list[tuple[str, float]]:
    found: list[tuple[str, float]] = []
    amount = line.concentration or line.expected
    if amount is not None:
        dilution = line.dilution or 1.0
        found.append((amount.dimension, amount.si / dilution))
    if line.level is not None:
        found.append(("level", line.level))
    return found


def _outside(
    case: BatchCase, lines: list[LineRun], known: dict[str, list[float]]
) -> Iterator[Finding]:
    missed: dict[tuple[str, str], list[tuple[LineRun, str, float]]] = {}
    for line in lines:
        if line.line.kind not in ("control", "sample"):
            continue
        for terms, value in _amounts(line.line):
            span = known.get(terms)
            if span is None:
                continue
            if value > max(span) * (1 + 1e-9):
                missed.setdefault((line.line.kind, "above"), []).append((line, terms, value))
            elif value < min(span) * (1 - 1e-9):
                missed.setdefault((line.line.kind, "below"), []).append((line, terms, value))
    for (kind, side), items in missed.items():
        line, terms, value = max(items, key=lambda i: i[2]) if side == "above" else items[0]
        ends = known[terms]
        limit = max(ends) if side == "above" else min(ends)
        factor = math.ceil(value / max(ends) * (line.line.dilution or 1.0) - 1e-9)
        remedy = f"add a level at or {side} {_said(terms, value)}"
        if side == "above" and kind == "sample":
            remedy += f", or dilute by {factor} and write dilution: {factor}"
        yield case.finding(
            case.line_at(line.index),
            "caution",
            f"a {kind} is expected at {_said(terms, value)}, {side} the "
            f"{'highest' if side == 'above' else 'lowest'} calibrator of {_said(terms, limit)} "
            f"({lines_in_words([item[0] for item in items])})",
            remedy=remedy,
        )


def _lowest(
    case: BatchCase, name: str, lines: list[LineRun], known: dict[str, list[float]]
) -> Iterator[Finding]:
    run = case.runs.get(name)
    lowest = run.method.lowest_level if run is not None and run.method is not None else None
    span = known.get(lowest.dimension) if lowest is not None else None
    if run is None or lowest is None or span is None or lowest.si >= min(span) * (1 - 1e-9):
        return
    first = next(line for line in lines if line.line.kind == "calibrator")
    yield case.finding(
        case.line_at(first.index),
        "caution",
        f"the method reports from {lowest.text} on, the lowest calibrator is "
        f"{_said(lowest.dimension, min(span))}",
        remedy=f"add a calibrator at {lowest.text}",
        also=(case.at(run.documents["method"], "lowest_level"),),
    )


def _said(terms: str, value: float) -> str:
    return f"level {value:g}" if terms == "level" else show(value, terms)
