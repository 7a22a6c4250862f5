"""A transfer in words: verdict, the four columns, densities, allowances, what remains."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.quantities.format import show
from methodlint.documents.text.visible import visible
from methodlint.reports.lines import Line, Words, line, wrapped
from methodlint.reports.wording import place
from methodlint.scaling.density_match import CAUTION_ABOVE, FAULT_ABOVE, is_stiff
from methodlint.transfer.entry import Entry
from methodlint.transfer.result import Transfer

__all__ = ["transfer_lines"]

WIDTH = 100
_INDENT = 10


def transfer_lines(transfer: Transfer, *, width: int = WIDTH) -> Iterator[Line]:
    """Lay a transfer out.

    Parameters
    ----------
    width
        Columns to wrap at.
    """
    sides = transfer.sides
    if transfer.feasible:
        yield [Words("TRANSFER COMPUTED", "good"), Words(": predicted; verify on both systems")]
    else:
        yield [Words("NO FEASIBLE TRANSFER", "stop"), Words(": nothing is written")]
    yield line(
        f"{sides.method.name}: {sides.source.columns[-1].name} on {sides.source.instrument.name}"
        f" -> {sides.target.columns[-1].name} on {sides.target.instrument.name}"
    )
    for obstacle in transfer.obstacles:
        yield from wrapped(
            Words("BINDING", "fault"), f"{obstacle.name}: {obstacle.message}", _INDENT, width
        )
    for number, way in enumerate(transfer.ways, 1):
        word = "" if way.computed else " (arithmetic, not marched)"
        yield from wrapped(f"way {number}", f"{way.text}{word}", _INDENT, width)
    for remark in transfer.remarks:
        yield from wrapped("note", remark, _INDENT, width)
    if transfer.entries:
        yield []
        yield from _table(transfer.entries, width)
    if transfer.attempt is not None:
        yield []
        yield from _corners(transfer, width)
    if transfer.uses or (transfer.allowances and transfer.allowances.name != "none"):
        yield []
        yield from _allowances(transfer, width)
    yield from _remaining(transfer, width)


def _table(entries: tuple[Entry, ...], width: int) -> Iterator[Line]:
    """Four columns; like rows of the programme are folded into what differs."""
    widths = (26, 16, 16, 16)
    head = ("", "source", "by geometry alone", "proposed")
    beside = sum(widths) + len(widths) + 30 <= width
    yield [Words(_cells(head, widths).rstrip(), "head"), Words("  why", "head")] if beside else [
        Words(_cells(head, widths).rstrip(), "head"), Words("; why below each", "head")
    ]  # fmt: skip
    before = ""
    for entry in entries:
        item = visible(entry.item)
        if len(item) > widths[0]:
            yield line(item)
            item = ""
        cells = _cells((item, entry.source, entry.geometry, entry.proposed), widths)
        reason = entry.reason
        said = "as above" if reason == before else reason
        before = reason
        indent = sum(widths) + len(widths)
        if not beside:
            yield [Words(cells)]
            yield from wrapped("", said, 6, width)
        else:
            yield from wrapped(cells, said, indent, width)


def _cells(texts: tuple[str, ...], widths: tuple[int, ...]) -> str:
    """Cells side by side; a text that is too long takes its own room, nothing is cut."""
    said = ""
    for text, room in zip(texts, widths, strict=True):
        said += visible(text).ljust(room) + " "
    return said


def _corners(transfer: Transfer, width: int) -> Iterator[Line]:
    tried = transfer.attempt
    assert tried is not None
    yield [Words("DENSITY ALONG THE COLUMN", "head"), Words(" at every corner of the programme")]
    for match, state, left in zip(tried.matches, tried.states, tried.residuals, strict=True):
        source = match.source
        text = (
            f"{show(source.row.share, 'share')} modifier: mean "
            f"{show(source.mean_density, 'density')} -> {show(state.mean_density, 'density')} "
            f"({left * 100:+.2f} %), outlet {show(source.outlet_density, 'density')} -> "
            f"{show(state.outlet_density, 'density')}, regulator "
            f"{show(source.row.outlet_pressure, 'pressure')} -> "
            f"{show(state.row.outlet_pressure, 'pressure')}, pump "
            f"{show(source.pump_pressure, 'pressure')} -> {show(state.pump_pressure, 'pressure')}"
        )
        tone = ""
        if is_stiff(state.row):
            tone = "note"
            text += "; low compressibility, not matched"
        elif abs(left) > FAULT_ABOVE:
            tone = "fault"
        elif abs(left) > CAUTION_ABOVE:
            tone = "caution"
        yield from wrapped(Words(tone, tone or "plain"), text, _INDENT, width)  # type: ignore[arg-type]


def _allowances(transfer: Transfer, width: int) -> Iterator[Line]:
    assert transfer.allowances is not None
    yield [Words("ALLOWANCES", "head"), Words(f" {transfer.allowances.name}")]
    yield from wrapped("", transfer.allowances.note, 2, width)
    for use in transfer.uses:
        word = "EXCEEDED" if use.exceeded else "inside"
        if not use.found:
            word = "change"
        text = f"{use.item}: {use.change}, allowed {use.span} ({use.source})"
        if word == "change":
            text = f"{use.item}: {use.change}; {use.span} ({use.source})"
        yield from wrapped(Words(word, "fault" if use.exceeded else "plain"), text, _INDENT, width)


def _remaining(transfer: Transfer, width: int) -> Iterator[Line]:
    if transfer.report is None:
        return
    yield []
    yield [Words("CHECK OF THE PROPOSAL", "head"), Words(f": {transfer.report.verdict}")]
    if not transfer.remaining:
        yield line("nothing that the source does not raise on its own instrument")
    else:
        yield line("beyond what the source raises on its own instrument:")
    for finding in transfer.remaining:
        text = f"{finding.message} ({place(finding.at)})"
        if finding.remedy:
            text += f"; do: {finding.remedy}"
        yield from wrapped(
            Words(finding.grade, finding.grade), f"{text} [{finding.rule}]", _INDENT, width
        )
