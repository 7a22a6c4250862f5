"""Many places of a tray in few words: neighbours in one row of a plate become a span."""

from __future__ import annotations

from collections.abc import Iterable

from methodlint.rehearsal.batch.positions import TrayPlace, Well

__all__ = ["place_list"]


def place_list(places: Iterable[TrayPlace]) -> str:
    """Name places plate by plate, for example `plate 1: A1-A6, B2; plate 2: C4 (8)`."""
    by_plate: dict[str, list[Well]] = {}
    for place in places:
        by_plate.setdefault(place.plate or "", []).append(place.well)
    texts = []
    total = 0
    for plate, wells in by_plate.items():
        total += len(wells)
        spans = ", ".join(_spans(wells))
        texts.append(f"plate {plate}: {spans}" if plate else spans)
    text = "; ".join(texts)
    return f"{text} ({total})" if total > 1 else text


def _spans(wells: list[Well]) -> list[str]:
    """Spans of neighbours, and whole rows that follow each other as one block."""
    ordered = sorted(
        set(wells), key=lambda well: (-1 if well.row is None else well.row, well.number)
    )
    runs: list[tuple[Well, Well]] = []
    for well in ordered:
        if runs and runs[-1][1].row == well.row and runs[-1][1].number + 1 == well.number:
            runs[-1] = (runs[-1][0], well)
        else:
            runs.append((well, well))
    blocks: list[list[tuple[Well, Well]]] = []
    for span in runs:
        if blocks and _beneath(blocks[-1][-1], span):
            blocks[-1].append(span)
        else:
            blocks.append([span])
    found = []
    for block in blocks:
        if len(block) > 2:
            found.append(f"{_span(*block[0])} to {_span(*block[-1])}")
        else:
            found += [_span(*span) for span in block]
    return found


def _span(first: Well, last: Well) -> str:
    return first.name if first == last else f"{first.name}-{last.name}"


def _beneath(above: tuple[Well, Well], below: tuple[Well, Well]) -> bool:
    """Whether a span of several wells repeats the one above in the next row."""
    first, last = above
    if first.row is None or below[0].row != first.row + 1 or first == last:
        return False
    return (first.number, last.number) == (below[0].number, below[1].number)
