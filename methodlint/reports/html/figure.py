"""A drawing with the points that it plots."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.reports.html.element import Element

__all__ = ["Figure"]


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing, what it says, and its points.

    Attributes
    ----------
    words
        What is to be seen, in a sentence.
    headers, rows
        The plotted points; the first column names its row.
    wide
        The drawing takes the whole width and its points stand beneath.
    """

    title: str
    words: str
    drawing: Element
    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    wide: bool = False
