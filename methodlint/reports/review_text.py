"""A review in words, for a terminal or a log."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.checking.review import Review
from methodlint.reports.bench_card import block_lines
from methodlint.reports.lines import Line, Words, line, wrapped
from methodlint.reports.review_blocks import review_blocks, span_words
from methodlint.reports.safety_words import cautions_for
from methodlint.reports.text import WIDTH, not_checked_lines, short_lines, unjudged_lines
from methodlint.reports.wording import summary

__all__ = ["review_lines"]


def review_lines(review: Review, *, notes: bool = False, width: int = WIDTH) -> Iterator[Line]:
    """Lay a review out.

    Parameters
    ----------
    notes
        Whether notes are shown too.
    width
        Columns to wrap at.
    """
    report = review.report
    yield line(Words(f"REVIEW  {review.logbook.path}", "head"))
    yield from wrapped("", span_words(review), 0, width)
    yield line(summary(report))
    yield from unjudged_lines(report, width)
    shown = [one for one in report.findings if notes or one.grade != "note"]
    if shown:
        yield []
    for finding in shown:
        yield from short_lines(finding, width)
    yield from not_checked_lines(report, width, all_named=notes)
    cautions = cautions_for(report.findings)
    if cautions:
        yield []
        yield [Words("SAFETY", "caution")]
        for text in cautions:
            yield from wrapped("  -", text, 4, width)
    for block in review_blocks(review):
        yield []
        yield from block_lines(block, width)
