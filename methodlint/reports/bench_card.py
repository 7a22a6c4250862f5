"""The bench card for a terminal: what to type in, prepare and expect, also when all is clean."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from methodlint.checking.report import Report
from methodlint.judging.case import BatchCase
from methodlint.reports.card.blocks import Block, CardRows, Steps, Table
from methodlint.reports.card.contents import PREDICTED, SIGNATURE, card_blocks
from methodlint.reports.card.pressures import run_summary
from methodlint.reports.lines import Line, Tone, Words, line, wrapped

_LABEL = 20
_GAP = 2
_LEAST = 12


def run_lines(report: Report, width: int) -> Iterator[Line]:
    """One line for each run that no sequence's card shows."""
    told = [(run.name, run.summary) for run in report.plain_runs if not run.with_bench]
    for run in report.runs:
        if "sequence" not in run.documents and run.rehearsal is not None and run.run.done:
            told.append((run.name, run_summary(run)))
    told = [(name, summary) for name, summary in told if summary]
    if not told:
        return
    yield []
    yield [Words("REHEARSED", "head"), Words(f" {PREDICTED}")]
    for name, summary in told:
        yield line(f"  {name}")
        yield from wrapped("", summary, 4, width)


@dataclass(frozen=True, slots=True)
class CardSection:
    """Lines of one block of a card.

    Attributes
    ----------
    key
        What the block is about; "signature" for the last line.
    """

    key: str
    lines: tuple[Line, ...]


def card_sections(blocks: Iterable[Block], width: int) -> Iterator[CardSection]:
    """Lay out what stands beneath the heading of the card of one sequence, block by block."""
    yield CardSection("head", (line(f"  {PREDICTED}"),))
    for block in blocks:
        yield CardSection(block.key, ([], *block_lines(block, width)))
    yield CardSection("signature", ([], line(f"  {SIGNATURE}")))


def card_lines(case: BatchCase, width: int) -> Iterator[Line]:
    """All of these lines, whatever the verdict."""
    for section in card_sections(card_blocks(case), width):
        yield from section.lines


def block_lines(block: Block, width: int) -> Iterator[Line]:
    """Lay out one block."""
    if isinstance(block, Table):
        subject = f"  {block.subject}" if block.subject else ""
        yield line(Words(block.title, "head"), subject)
        yield from _table_lines(block, width)
        yield from _rows_lines(block.foot, width)
        return
    yield line(Words(block.title, "caution" if _warns(block) else "head"))
    if isinstance(block, CardRows):
        yield from _rows_lines(block.rows, width)
        return
    for number, step in enumerate(block.steps, start=1):
        mark = f"  {number:>2}" if block.key in ("start", "stop") else "   -"
        yield from wrapped(mark, step, 5, width)


def _warns(block: Block) -> bool:
    return isinstance(block, Steps) and block.tone == "caution"


def _rows_lines(rows: Sequence[tuple[str, str]], width: int) -> Iterator[Line]:
    for label, text in rows:
        yield from wrapped(f"  {label}", text, max(_LABEL, len(label) + 3), width)


def _table_lines(table: Table, width: int) -> Iterator[Line]:
    """Align figures right; a column of words takes what is left of the width and wraps."""
    grid = [table.headers, *table.rows]
    widths = [max(len(row[column]) for row in grid) for column in range(len(table.headers))]
    for column in sorted(table.words, key=lambda number: -widths[number]):
        excess = 2 + sum(widths) + _GAP * (len(widths) - 1) - width
        if excess > 0:
            longest = max(len(word) for row in grid for word in row[column].split(" "))
            widths[column] = max(widths[column] - excess, longest, _LEAST)
    if 2 + sum(widths) + _GAP * (len(widths) - 1) > width:
        yield from _stacked_lines(table, width)
        return
    for number, row in enumerate(grid):
        tone: Tone = "quiet" if number == 0 else "plain"
        cells = [
            _folded(text, widths[column]) if column in table.words else [text]
            for column, text in enumerate(row)
        ]
        for depth in range(max(len(cell) for cell in cells)):
            parts = []
            for column, cell in enumerate(cells):
                text = cell[depth] if depth < len(cell) else ""
                left = column in table.words
                parts.append(text.ljust(widths[column]) if left else text.rjust(widths[column]))
            yield line(Words(f"  {(' ' * _GAP).join(parts)}".rstrip(), tone))


def _stacked_lines(table: Table, width: int) -> Iterator[Line]:
    """Where columns do not fit: each row by itself, its figures behind their heads."""
    for name, *cells in table.rows:
        yield from wrapped("", name, 2, width)
        pairs = zip(table.headers[1:], cells, strict=True)
        yield from wrapped(
            "", ", ".join(f"{head} {text}" for head, text in pairs if text), 4, width
        )


def _folded(text: str, width: int) -> list[str]:
    """Fold at blanks; a word is never cut."""
    lines: list[str] = []
    for word in text.split(" "):
        if lines and len(lines[-1]) + 1 + len(word) <= width:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return lines
