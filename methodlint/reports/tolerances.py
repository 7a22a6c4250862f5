"""What becomes of runs at the corners of their tolerances: for the card, and as plain data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from methodlint.documents.quantities.format import counted
from methodlint.documents.text.visible import visible
from methodlint.reports.card.blocks import CardRows
from methodlint.window.corners import CornerFailure, Corners

__all__ = ["tolerance_blocks", "tolerance_data"]


def tolerance_blocks(corners: Iterable[Corners]) -> list[CardRows]:
    """Lay the corners of each run out: what was covered, what fails where."""
    return [
        CardRows("tolerances", f"TOLERANCES  {one.run.name}", tuple(_rows(one))) for one in corners
    ]


def _rows(found: Corners) -> Iterator[tuple[str, str]]:
    for accuracy in found.accuracies:
        yield accuracy.name, f"{accuracy.words} ({accuracy.source})"
    said = f"{counted(found.count, 'corner')} rehearsed; "
    if found.own == "fails":
        said += "the run fails at its own settings, see above; "
    failing, within = found.failing, [one for one in found.failures if one.reason.possible]
    said += "nothing further fails at any" if not failing else ""
    said += "; ".join(f"{one.reason.rule} fails at {one.corners}" for one in failing)
    if found.not_judged:
        said += f"; a check that can stop was not made at {found.not_judged}"
    yield "covered", said
    for one in failing:
        yield f"{one.reason.grade} at {one.corners}", f"{_where(one)}{one.reason.message}"
    for one in within:
        words = f"{_where(one)}{one.reason.rule} is within its band, which holds part of these "
        yield f"band at {one.corners}", f"{words}tolerances already"


def _where(failure: CornerFailure) -> str:
    return ", ".join(f"{name} {end}" for name, end in failure.at) + (": " if failure.at else "")


def tolerance_data(corners: Iterable[Corners]) -> list[dict[str, Any]]:
    """Give the corners of runs as plain data; hidden characters are made visible."""
    return [
        {
            "subject": visible(one.run.name),
            "corners": one.count,
            "not_judged": one.not_judged,
            "own_state": one.own,
            "covered": [
                {"part": accuracy.name, "span": accuracy.words, "source": accuracy.source}
                for accuracy in one.accuracies
            ],
            "failures": [
                {
                    "rule": visible(failure.reason.rule),
                    "class": failure.reason.grade,
                    "possible": failure.reason.possible,
                    "corners": failure.corners,
                    "always": dict(failure.at),
                    "message": visible(failure.reason.message),
                }
                for failure in one.failures
            ],
        }
        for one in corners
    ]
