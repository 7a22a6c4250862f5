"""A transfer as one page: what moves where, why each number, what was allowed, what remains."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import show
from methodlint.fluids.table_record import table_record
from methodlint.reports.card.blocks import Alert
from methodlint.reports.html.element import Element, element
from methodlint.reports.html.figure_corners import corner_elements, largest_residual
from methodlint.reports.html.findings import finding_element
from methodlint.reports.html.pieces import papers_element, table_element
from methodlint.reports.html.shell import Mood, banner, keys_element, whole_page
from methodlint.reports.safety_words import DEFER, cautions_for
from methodlint.transfer.result import AllowanceUse, Transfer
from methodlint.version import __version__

__all__ = ["transfer_page"]

PREDICTED = "predicted; verify on both systems"


def transfer_page(transfer: Transfer) -> str:
    """Write a transfer record as a page of HTML: the same bytes on every run."""
    method = transfer.sides.method
    title = getattr(method.model, "title", None) or method.name
    return whole_page(f"Transfer record: {title}", _parts(transfer, title))


def _parts(transfer: Transfer, title: str) -> Iterator[Element]:
    sides = transfer.sides
    yield element("p", f"Transfer record · {PREDICTED}", class_="small")
    yield element("h1", title)
    yield element(
        "p",
        f"{_system(sides.source.columns, sides.source.instrument)} → "
        f"{_system(sides.target.columns, sides.target.instrument)}",
        class_="path",
    )
    yield _banner(transfer)
    keys = list(_keys(transfer))
    if keys:
        yield keys_element(keys)
    if transfer.obstacles:
        yield element("h2", "What binds")
        yield from (_obstacle(item.name, item.message) for item in transfer.obstacles)
    if transfer.ways:
        yield element("h2", "Other ways, the nearest first")
        ways = [
            element("li", way.text if way.computed else f"{way.text} (arithmetic, not marched)")
            for way in transfer.ways
        ]
        yield element("ol", *ways, class_="plain")
    if transfer.remarks:
        yield element("h2", "Notes")
        yield element("ul", *(element("li", text) for text in transfer.remarks), class_="plain")
    if transfer.entries:
        yield element("h2", "Every number, and why")
        yield _numbers(transfer)
    if transfer.attempt is not None:
        yield element("h2", "Density along the column")
        yield from corner_elements(transfer.attempt)
    if transfer.peaks:
        yield element("h2", "Expected peaks")
        yield _peaks(transfer)
    yield from _allowances(transfer)
    yield from _remaining(transfer)
    yield from _to_do(transfer)
    yield _provenance(transfer)


def _system(columns: Iterable[Loaded[Column]], instrument: Loaded[Instrument]) -> str:
    return f"{', '.join(column.name for column in columns)} on {instrument.name}"


def _banner(transfer: Transfer) -> Element:
    if not transfer.feasible:
        binding = ", ".join(item.name for item in transfer.obstacles)
        return banner("stop", "NO FEASIBLE TRANSFER", f"Nothing is written. Binding: {binding}.")
    exceeded = sum(use.exceeded for use in transfer.uses)
    mood: Mood = "care" if transfer.remaining or exceeded else "good"
    if transfer.exit_status() or _not_to_be_run(transfer):
        mood = "stop"
    told = [PREDICTED]
    if transfer.report is not None:
        told.append(f"check of the proposal: {transfer.report.verdict}")
    told.append(f"{_counted(len(transfer.remaining), 'finding')} beyond those of the source")
    if exceeded:
        told.append(f"{_counted(exceeded, 'allowance')} exceeded")
    return banner(mood, "TRANSFER COMPUTED", f"{'; '.join(told).capitalize()}.")


def _not_to_be_run(transfer: Transfer) -> bool:
    return transfer.report is not None and transfer.report.verdict == "do not run"


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _keys(transfer: Transfer) -> Iterator[tuple[str, str, str]]:
    for entry in transfer.entries:
        if entry.item in ("flow", "outlet pressure") and entry.proposed:
            yield entry.item, entry.proposed, f"source {entry.source}" if entry.source else ""
    tried = transfer.attempt
    if tried is not None:
        source = max(match.source.pump_pressure for match in tried.matches)
        target = max(state.pump_pressure for state in tried.states)
        yield "highest at the pumps", show(target, "pressure"), f"source {show(source, 'pressure')}"
        worst = largest_residual(tried)
        if worst is not None:
            yield "mean density off by", f"{worst * 100:.2f} %", "at the worst corner"


def _obstacle(name: str, message: str) -> Element:
    return element(
        "article",
        element("p", element("span", name, class_="class")),
        element("p", message),
        class_="finding stop",
    )


def _numbers(transfer: Transfer) -> Element:
    rows = []
    before = ""
    for entry in transfer.entries:
        reason = "as above" if entry.reason == before else entry.reason
        before = entry.reason
        rows.append(
            (entry.item, entry.source or "-", entry.geometry or "-", entry.proposed or "-", reason)
        )
    headers = ("item", "source", "by geometry alone", "proposed", "why")
    caption = "Each proposed number is derived, copied, or limited by what is named"
    return table_element(headers, rows, {1, 2, 3, 4}, caption, class_="numbers")


def _peaks(transfer: Transfer) -> Element:
    rows = [
        (
            peak.name,
            show(peak.time, "time", "min"),
            show(peak.target_time, "time", "min"),
            show(peak.width, "time", "s") if peak.width is not None else "-",
            show(peak.target_width, "time", "s") if peak.target_width is not None else "-",
            f"{peak.extra_loss * 100:.3g} %" if peak.extra_loss is not None else "-",
        )
        for peak in transfer.peaks
    ]
    headers = ("peak", "at, source", "at, here", "width, source", "width, here", "plates lost")
    caption = "Widths at the base; plates lost outside the column on the target"
    return table_element(headers, rows, (), caption)


def _allowances(transfer: Transfer) -> Iterator[Element]:
    used = transfer.allowances
    if used is None or (not transfer.uses and used.name == "none"):
        return
    yield element("h2", f"Allowances: {used.name}")
    yield element("p", used.note, class_="small")
    if transfer.uses:
        rows = [(u.item, u.change, u.span, _standing(u), u.source) for u in transfer.uses]
        headers = ("item", "change", "allowed", "standing", "source")
        yield table_element(headers, rows, {1, 2, 3, 4}, unseen="Allowances used and exceeded")


def _standing(use: AllowanceUse) -> str:
    if use.exceeded:
        return Alert("EXCEEDED")
    return "inside" if use.found else "change"


def _remaining(transfer: Transfer) -> Iterator[Element]:
    if transfer.report is None:
        return
    yield element("h2", f"Check of the proposal: {transfer.report.verdict}")
    if _not_to_be_run(transfer) and not transfer.exit_status():
        words = "What stops it stops the source too: check the proposed method, and put it right."
        yield element("p", words)
    if not transfer.remaining:
        words = "Nothing that the source does not raise on its own instrument."
        yield element("p", words)
        return
    yield element("p", "Beyond what the source raises on its own instrument:", class_="small")
    yield from (finding_element(finding) for finding in transfer.remaining)


def _to_do(transfer: Transfer) -> Iterator[Element]:
    if transfer.feasible:
        yield element("h2", "Verify")
        names = ", ".join(sorted(transfer.verification))
        steps = [
            (
                "Every figure of this page is predicted: run the same injections on both systems and "
                "compare retention, resolution and area before the method is used."
            ),
            f"Sequences for it: {names}." if names else None,
            "The proposed method is a draft; whoever answers for it approves it.",
        ]
        yield element("ul", *(element("li", step) for step in steps if step), class_="plain")
    yield element("h2", "Cautions")
    cautions = cautions_for(transfer.remaining) or [DEFER]
    yield element("ul", *(element("li", text) for text in cautions), class_="plain")


def _provenance(transfer: Transfer) -> Element:
    sides, tables = transfer.sides, table_record()
    rows = [_paper(sides.method, "method")]
    for side, word in ((sides.source, "source"), (sides.target, "target")):
        rows += [_paper(column, f"{word} column") for column in side.columns]
        rows.append(_paper(side.instrument, f"{word} instrument"))
    if transfer.proposed is not None:
        rows.append(_paper(transfer.proposed, "proposed method"))
    asked = ", ".join(f"{name} {value}" for name, value in transfer.options.items())
    calibration = None
    if sides.calibration is not None:
        served = "" if sides.calibration_serves_target else ", not carried over to the target"
        calibration = f"Flow resistance of the source from a measured pressure{served}."
    return element(
        "footer",
        element("h2", "Provenance"),
        element("p", f"methodlint {__version__}, properties from {tables.library}"),
        element("p", "Property tables SHA-256 ", element("span", tables.sha256, class_="hash")),
        element("p", f"Asked for: {asked}") if asked else None,
        element("p", calibration) if calibration else None,
        papers_element(rows, "Documents read, and the method proposed"),
        class_="small",
    )


def _paper(document: Loaded, role: str) -> tuple[str, str, str]:
    return document.path, role, document.read.sha256
