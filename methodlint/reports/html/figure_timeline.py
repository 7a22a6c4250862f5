"""What happens when in a sequence, in lanes, with the hours in which nobody is there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from methodlint.judging.case import BatchCase
from methodlint.rehearsal.batch.lines import STANDARDS, Batch, LineRun
from methodlint.rehearsal.bench.staffed_hours import unstaffed_spans
from methodlint.reports.html.chart import Chart, label
from methodlint.reports.html.clock_axis import clock_text, clock_ticks, clock_words
from methodlint.reports.html.element import element
from methodlint.reports.html.figure import Figure

__all__ = ["timeline_figure"]

_LANES = ("steps", "blanks", "standards", "samples")
_LANE_COLOURS = {
    "steps": "#47535e",
    "blanks": "#3f6212",
    "standards": "#a03c00",
    "samples": "#0b4f6c",
}
_MOST_BLOCKS = 24


@dataclass(frozen=True, slots=True)
class _Span:
    """Neighbouring lines of one lane."""

    lane: str
    begins: float
    ends: float
    first: int
    last: int
    words: str


def timeline_figure(name: str, case: BatchCase) -> Figure | None:
    """What happens when, in lanes, with the hours in which nobody is there."""
    batch = case.batch
    if batch.missing or not batch.lines or batch.duration <= 0.0:
        return None
    spans = list(_spans(batch))
    title = "The sequence over time"
    words = _timeline_words(batch)
    chart = Chart(
        name,
        title,
        f"{words} Lanes: steps without injection, blanks, standards and controls, samples.",
        (0.0, batch.duration),
        (0.0, 4.0),
        clock_words(batch),
        "",
        width=900.0,
        height=190.0,
        left=84.0,
        right=20.0,
    )
    night = list(_unstaffed(case))
    for begins, ends in night:
        x, end = chart.x(begins), chart.x(ends)
        chart.add(
            element(
                "rect",
                x=x,
                y=chart.y(4.0),
                width=end - x,
                height=chart.y(0.0) - chart.y(4.0),
                class_="night",
            )
        )
    chart.x_axis(clock_ticks(batch, 12))
    for index, lane in enumerate(reversed(_LANES)):
        middle = index + 0.5
        chart.add(label(76.0, chart.y(middle) + 4.0, lane, "end", fill=_LANE_COLOURS[lane]))
        for begins, ends in _merged(
            [(s.begins, s.ends) for s in spans if s.lane == lane], batch.duration / 600.0
        ):
            x, end = chart.x(begins), chart.x(ends)
            chart.add(
                element(
                    "rect",
                    x=x,
                    y=chart.y(index + 0.86),
                    width=max(end - x - 0.6, 0.8),
                    height=chart.y(0.14) - chart.y(0.86),
                    fill=_LANE_COLOURS[lane],
                )
            )
    if night:
        chart.add(label(chart.x(night[0][0]) + 4.0, 20.0, "nobody there", "start"))
    rows = [_row(batch, block) for block in _blocks(spans, batch.duration)]
    headers = ("from", "to", "injections", "what")
    return Figure(title, words, chart.svg(), headers, tuple(rows), wide=True)


def _timeline_words(batch: Batch) -> str:
    ends = clock_text(batch, batch.duration)
    unit = "" if batch.typed.begins is not None else " h"
    return f"{batch.injections} injections in {len(batch.lines)} lines, done at {ends}{unit}."


def _lane(line: LineRun) -> str:
    kind = line.line.kind
    if not line.injects or kind == "conditioning":
        return "steps"
    if kind in ("blank", "matrix blank", "zero"):
        return "blanks"
    return "standards" if kind in STANDARDS else "samples"


def _spans(batch: Batch) -> Iterator[_Span]:
    if batch.equilibration > 0.0:
        yield _Span("steps", 0.0, batch.equilibration, 0, 0, "equilibration")
    held: list[LineRun] = []
    for line in batch.lines:
        if held and (line.line.kind, line.method) != (held[0].line.kind, held[0].method):
            yield _joined(held)
            held = []
        held.append(line)
    if held:
        yield _joined(held)


def _joined(lines: list[LineRun]) -> _Span:
    first, last = lines[0], lines[-1]
    words: str = first.line.kind
    if first.injects and first.method:
        words += f", {first.method}"
    return _Span(
        _lane(first), first.begins, last.ends, first.first_injection, last.last_injection, words
    )


def _merged(spans: list[tuple[float, float]], gap: float) -> list[tuple[float, float]]:
    """Join spans that lie closer than a gap that nobody could see."""
    found: list[tuple[float, float]] = []
    for begins, ends in spans:
        if found and begins - found[-1][1] < gap and ends - found[-1][0] < gap:
            found[-1] = (found[-1][0], ends)
        else:
            found.append((begins, ends))
    return found


def _blocks(spans: list[_Span], duration: float) -> list[list[_Span]]:
    """Group spans so that a table of them stays readable."""
    if len(spans) <= _MOST_BLOCKS:
        return [[span] for span in spans]
    blocks: list[list[_Span]] = [[]]
    for span in spans:
        if blocks[-1] and span.ends - blocks[-1][0].begins > duration / _MOST_BLOCKS:
            blocks.append([])
        blocks[-1].append(span)
    return blocks


def _row(batch: Batch, block: list[_Span]) -> tuple[str, ...]:
    numbers = [span.first for span in block if span.first], [span.last for span in block]
    first, last = min(numbers[0], default=0), max(numbers[1])
    count = "-" if not first else str(first) if first == last else f"{first}-{last}"
    return (
        clock_text(batch, block[0].begins),
        clock_text(batch, block[-1].ends),
        count,
        "; ".join(dict.fromkeys(span.words for span in block)),
    )


def _unstaffed(case: BatchCase) -> Iterator[tuple[float, float]]:
    begins = case.batch.typed.begins
    if case.room is None or begins is None:
        return
    start = begins.replace(tzinfo=None)
    for span in unstaffed_spans(case.room, begins, case.batch.duration) or ():
        yield (span.begins - start).total_seconds(), (span.ends - start).total_seconds()
