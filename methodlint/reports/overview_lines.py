"""The overview of many documents laid out: by verdict, worst first, as wide as the terminal."""

from __future__ import annotations

import itertools
import os
from collections.abc import Iterable, Iterator, Sequence

from methodlint.checking.report import Report
from methodlint.reports.card.contents import PREDICTED
from methodlint.reports.lines import Line, Tone, Words, line, wrapped, wrapped_items
from methodlint.reports.overview import NOTHING, OverviewRow, overview_rows, row_verdict

__all__ = ["overview_lines"]

_VERDICTS: dict[str, Tone] = {
    "do not run": "stop",
    "judged in part": "caution",
    "run with care": "caution",
    "clear to run": "good",
}
_HEADERS = ("bar/limit", "margin", "CO2", "CO2 ends", "end")
_PART = "closest to its limit"
_GAP = 2
_LEAST_NAME = 16
_MEANING = (
    "bar/limit: highest pressure, +band, of the part closest to its limit; margin: bar above the "
    "phase boundary; " + PREDICTED + ". Bench cards: name one sequence, or --cards; calendar: "
    "--cards"
)


def overview_lines(report: Report, width: int) -> Iterator[Line]:
    """Lay out a row for each method and sequence; nothing where there is none."""
    rows = overview_rows(report)
    if not rows:
        return
    common = _common_folder([row.path for row in rows])
    named = [(_name(row, rows, common), row) for row in rows]
    yield []
    told = [_figures(row, part=True) for _, row in named]
    widths = _widths((*_HEADERS, _PART), told)
    longest = max(len(name) for name, _ in named)
    part = 2 + longest + sum(widths) + _GAP * len(widths) <= width
    if not part:
        widths = widths[:-1]
    label = min(longest, width - 2 - sum(widths) - _GAP * len(widths))
    stacked = label < min(longest, _LEAST_NAME)
    if stacked:
        yield line(Words("OVERVIEW", "head"))
    else:
        heads = (*_HEADERS, _PART)[: len(widths)]
        yield [
            Words("OVERVIEW".ljust(label + 2), "head"),
            Words(_columns(heads, widths), "quiet"),
        ]
    for verdict, tone in _VERDICTS.items():
        chosen = [(name, row) for name, row in named if row_verdict(report, row) == verdict]
        if chosen:
            yield line(Words(verdict.upper(), tone))
        for name, row in chosen:
            figures = _figures(row, part=part)
            if stacked:
                yield from wrapped("", name, 2, width)
                pairs = zip(_HEADERS, figures, strict=False)
                told_of = [f"{head} {text}" for head, text in pairs if text != NOTHING]
                yield from wrapped_items(told_of, 4, width)
            elif len(name) > label:
                yield line(f"  {name}")
                if set(figures) != {NOTHING}:
                    yield line(f"  {' ' * label}{_columns(figures, widths)}")
            else:
                yield line(f"  {name.ljust(label)}{_columns(figures, widths)}")
    yield from (
        [Words(p.text, "quiet") for p in parts] for parts in wrapped("", _MEANING, 2, width)
    )


def _figures(row: OverviewRow, *, part: bool) -> tuple[str, ...]:
    figures = (row.pressure, row.margin, row.co2, row.co2_ends, row.ends)
    return (*figures, row.part) if part else figures


def _widths(headers: Sequence[str], rows: Iterable[Sequence[str]]) -> list[int]:
    grid = [headers, *rows]
    return [max(len(row[column]) for row in grid) for column in range(len(headers))]


def _columns(cells: Sequence[str], widths: Sequence[int]) -> str:
    """Figures aligned right; a sixth column names a part and is aligned left."""
    told = [
        cell.ljust(width) if column == len(_HEADERS) else cell.rjust(width)
        for column, (cell, width) in enumerate(zip(cells, widths, strict=True))
    ]
    return "".join(" " * _GAP + cell for cell in told).rstrip()


def _name(row: OverviewRow, rows: Sequence[OverviewRow], common: str) -> str:
    name = row.path.removeprefix(common).removesuffix(".yaml")
    twice = sum(row.path == other.path for other in rows) > 1
    return f"{name} on {row.instrument}" if twice and row.instrument else name


def _common_folder(paths: Sequence[str]) -> str:
    """Folder that all paths begin with, as they write it; empty if they share none."""
    folders = [path.replace(os.sep, "/").rsplit("/", 1)[0].split("/") for path in paths]
    if any("/" not in path.replace(os.sep, "/") for path in paths):
        return ""
    shared = list(
        itertools.takewhile(lambda step: len(set(step)) == 1, zip(*folders, strict=False))
    )
    return "".join(f"{step[0]}/" for step in shared)
