"""A run length given for a line is no shorter than the method's, nor than its last peak.

Reason
    The last peak is cut off, or comes out in the next injection.

Unsound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL, run_length: 5 min}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL, run_length: 9 min}

Remedy
    Take the run length out of the line. For blanks and conditioning it may be meant: a note.

Source
    Five standard deviations after the last peak: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import peak_widths
from methodlint.judging.ask.rule import BatchCase, Finding, RunCase, When, minutes, show
from methodlint.judging.ask.sequence import LineRun, lines_in_words

SUBJECT = "batch"
CLASSES = ("fault", "note")
NEEDS = ("sequence.lines",)

_DELIBERATE = ("blank", "matrix blank", "conditioning")
_SIGMAS = 5.0


def applies(case: BatchCase) -> bool:
    """Only lines with a run length of their own raise the question."""
    sequence = case.sequence
    return sequence is not None and any(line.run_length is not None for line in sequence.lines)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare every run length with the method's; one finding for samples, one for blanks."""
    short: dict[bool, list[tuple[LineRun, float]]] = {}
    needs = {name: _needed(run) for name, run in case.runs.items()}
    for line in case.batch.lines:
        length = line.line.run_length
        needed = needs.get(line.method)
        if length is None or needed is None or not line.injects or length.si >= needed - 0.05:
            continue
        short.setdefault(line.line.kind in _DELIBERATE, []).append((line, needed))
    for deliberate, items in sorted(short.items()):
        line, needed = min(items, key=lambda i: (i[0].line.run_length.si, i[0].index))  # type: ignore[union-attr]
        length = line.line.run_length
        assert length is not None
        change = case.change(case.line_at(line.index, "run_length"), None)
        yield case.finding(
            case.line_at(line.index, "run_length"),
            "note" if deliberate else "fault",
            f"{lines_in_words([item[0] for item in items])}: the run ends at "
            f"{show(length.si, 'time', 'min')}, method '{line.method}' needs "
            f"{show(needed, 'time', 'min')}",
            found=minutes(length.si),
            limit=minutes(needed),
            when=When(injection=line.first_injection, last_injection=line.last_injection),
            remedy="take the run length out of the line",
            candidates=[]
            if deliberate or len(items) > 1
            else [case.candidate("take the run length out of the line", change)],
        )


def _needed(run: RunCase) -> float | None:
    """The method's run length, or the end of its last peak if that is later."""
    method = run.method
    if method is None:
        return None
    ends = [method.run_length.si] if method.run_length is not None else []
    ends += [
        peak.retention_time + _SIGMAS * peak.sigma
        for peak in peak_widths(method, run.column)
        if peak.retention_time is not None
    ]
    return max(ends, default=None)
