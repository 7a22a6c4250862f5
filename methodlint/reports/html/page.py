"""The whole report as one page: verdict, stops and faults, card, drawings, findings, provenance."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.checking.report import Report
from methodlint.documents.quantities.format import show
from methodlint.fluids.table_record import table_record
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.shared.supply_end import supply_end
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.run.phase_places import thinnest_band_words
from methodlint.reports.card.blocks import Block, CardRows
from methodlint.reports.card.contents import PREDICTED, card_blocks
from methodlint.reports.card.pressures import bar, pressure_block
from methodlint.reports.card.stamp import HELD, documents_hash, is_held, stamp
from methodlint.reports.html.element import Element, element
from methodlint.reports.html.figure_levels import levels_figure
from methodlint.reports.html.figure_timeline import timeline_figure
from methodlint.reports.html.figures_column import column_figures
from methodlint.reports.html.figures_phase import composition_figure, margin_figure
from methodlint.reports.html.figures_run import run_figure, train_figure
from methodlint.reports.html.findings import finding_elements, rest_elements, unjudged_elements
from methodlint.reports.html.pieces import block_element, figure_element, papers_element
from methodlint.reports.html.shell import Mood, banner, keys_element, whole_page
from methodlint.reports.prepared import Prepared
from methodlint.reports.tolerances import tolerance_blocks
from methodlint.reports.week import week_block
from methodlint.reports.wording import summary, verdict_words
from methodlint.version import __version__

__all__ = ["html_page", "verdict_element"]

_LEFT = ("bench", "start", "stop")
_RIGHT = ("co2", "room", "found", "left", "record", "emergency")


def html_page(prepared: Prepared, back: str = "") -> str:
    """Write a prepared report as a page of HTML.

    Parameters
    ----------
    prepared
        The report.
    back
        Name of the page that lists this one; empty if it stands alone.

    Raises
    ------
    ValueError
        If the report is one of `check_many`, which keeps nothing to draw.
    """
    report = prepared.report
    if report.plain_runs or report.plain_batches:
        raise ValueError("a page is drawn from the report of check, not of check_many")
    title = _title(report)
    marks = [stamp(report, documents_hash(batch)) for batch in report.batches]
    foot = "; ".join(dict.fromkeys(marks)) or verdict_words(report).upper()
    parts = list(_parts(prepared, title))
    if back:
        parts.insert(0, element("p", element("a", "All methods and sequences", href=back)))
    return whole_page(f"Bench card: {title}", parts, foot)


def _title(report: Report) -> str:
    if len(report.batches) == 1:
        document = report.batches[0].documents["sequence"]
        return document.model.title or document.name
    alone = _alone(report)
    if not report.batches and len(alone) == 1:
        document = alone[0].documents["method"]
        return document.model.title or document.name
    counts = ((len(report.batches), "sequence"), (len(alone), "method"))
    told = [f"{count} {what}{'s' if count > 1 else ''}" for count, what in counts if count]
    return ", ".join(told) or "Documents without a run"


def _alone(report: Report) -> list[RunCase]:
    return [run for run in report.runs if "sequence" not in run.documents]


def _parts(prepared: Prepared, title: str) -> Iterator[Element]:
    report = prepared.report
    yield element("p", f"Bench card · {PREDICTED}", class_="small")
    yield element("h1", title)
    if len(report.batches) == 1:
        yield element("p", report.batches[0].name, class_="path")
    yield verdict_element(report)
    yield from unjudged_elements(report)
    if report.as_of is not None:
        yield element("p", f"Judged as of {report.as_of.isoformat()}", class_="small")
    for path, text in report.given:
        yield element("p", f"Given for this run, as typed: {path} = {text}", class_="small given")
    serious = finding_elements(prepared, ("stop", "fault"))
    if serious:
        yield element("h2", "First put this right")
        yield from serious
    minor = finding_elements(prepared, ("caution", "note") if prepared.notes else ("caution",))
    if minor:
        yield element("h2", "Cautions and notes" if prepared.notes else "Cautions")
        yield from minor
    week = week_block(report)
    if week is not None:
        yield element("div", block_element(week), class_="blocks")
    for block in tolerance_blocks(prepared.corners or ()):
        yield element("div", block_element(block), class_="blocks")
    for number, batch in enumerate(report.batches):
        yield _batch(report, batch, number, several=len(report.batches) > 1)
    for number, run in enumerate(_alone(report)):
        yield _run(run, number, first=not report.batches and number == 0)
    yield from _standing(prepared)
    yield from rest_elements(report)
    yield _provenance(report)


def verdict_element(report: Report) -> Element:
    """Say the verdict of a report, and what it counts."""
    moods: dict[str, Mood] = {"clear to run": "good", "run with care": "care"}
    mood = moods.get(report.verdict, "stop")
    return banner(mood, verdict_words(report).upper(), summary(report))


def _batch(report: Report, case: BatchCase, number: int, *, several: bool) -> Element:
    name = f"batch-{number + 1}"
    held = is_held(report)
    blocks = [_held(block) if held else block for block in card_blocks(case)]
    mark = stamp(report, documents_hash(case))
    figures = []
    timeline = timeline_figure(f"{name}-time", case)
    levels = levels_figure(f"{name}-levels", case)
    for index, (method, run) in enumerate(case.runs.items()):
        if run.rehearsal is None or not run.run.done:
            continue
        if len(case.runs) > 1:
            figures.append(element("h3", f"Method {method}", class_="method"))
        figures += _figures_of(f"{name}-{index + 1}", run)
    figures += [figure_element(figure) for figure in (levels, timeline) if figure is not None]
    document = case.documents["sequence"]
    title = (document.model.title or document.name) if several else "Card"
    return element(
        "section",
        element("h2", title),
        element("p", document.path, class_="path") if several else None,
        _batch_keys(case),
        element(
            "div",
            element("div", *_chosen(blocks, _LEFT, mark)),
            element("div", *_chosen(blocks, _RIGHT, mark)),
            class_="blocks",
        ),
        element(
            "div",
            *(block_element(block) for block in blocks if block.key not in (*_LEFT, *_RIGHT)),
            class_="blocks",
        ),
        None if held else _signature(),
        _figures(figures),
        class_="batch" if number else "batch first",
    )


def _figures_of(name: str, run: RunCase) -> list[Element]:
    """Drawings of one run: pressures open, phases and column folded away."""
    shown = [train_figure(f"{name}-train", run), run_figure(f"{name}-run", run)]
    more = [
        margin_figure(f"{name}-margin", run),
        composition_figure(f"{name}-phases", run),
        *column_figures(f"{name}-column", run),
    ]
    inside = [figure_element(figure) for figure in more if figure is not None]
    folded = element("details", element("summary", "Phase boundary and column"), *inside)
    return [*(figure_element(figure) for figure in shown), folded]


def _figures(figures: list[Element]) -> Element | None:
    """Drawings under a heading of their own: a printer begins a sheet with it."""
    if not figures:
        return None
    return element("section", element("h2", "Figures"), *figures, class_="figures")


def _chosen(blocks: list[Block], keys: tuple[str, ...], mark: str) -> Iterator[Element]:
    """Blocks of these keys; verdict and hash stand above what is done by hand."""
    for key in keys:
        for block in blocks:
            if block.key == key:
                if key in ("start", "emergency"):
                    yield element("p", mark, class_="stamp")
                yield block_element(block)


def _held(block: Block) -> Block:
    return CardRows("start", "START", (("start", HELD),)) if block.key == "start" else block


def _signature() -> Element:
    return element(
        "div",
        element("span", "Read and understood: name"),
        element("i"),
        element("span", "date"),
        element("i"),
        class_="sign",
    )


def _run_keys(runs: list[RunCase]) -> list[tuple[str, str, str]]:
    done = [run for run in runs if run.rehearsal is not None and run.run.done]
    if not done:
        return []
    highest = max(done, key=lambda run: float(run.run.pump_pressure.max()))
    pump = highest.run.highest(highest.run.pump_pressure)
    limits = highest.method.pressure_limits if highest.method is not None else None
    low = limits.low if limits is not None else None
    high = limits.high if limits is not None else None
    span = " to ".join(bar(end.si) for end in (low, high) if end is not None)
    one = "low" if high is None else "high" if low is None else ""
    closest = min(done, key=lambda run: float(run.run.least_margin.min()))
    least = float(closest.run.least_margin.min())
    margin = "one phase" if least == float("inf") else show(abs(least), "pressure")
    band = "" if least == float("inf") else thinnest_band_words(closest.run)
    side = "above the phase boundary"
    if least < 0.0:
        side, band = "BELOW the phase boundary", f"two phases; {band}"
    found = [("highest at the pumps", show(pump.value, "pressure"), pump.band_words)]
    if span:
        found.append(
            ("limits to set", f"{span} bar", f"{one} limit alone" if one else "low to high")
        )
    return [*found, (side, margin, band)]


def _batch_keys(case: BatchCase) -> Element:
    items = _run_keys(list(case.runs.values()))
    batch = case.batch
    if not batch.missing:
        end = supply_end(case).end
        usable = f"of {show(max(end.usable.expected, 0.0), 'mass', 'kg')} usable" if end else ""
        items.append(("CO2 needed", show(batch.co2_demand, "mass", "kg"), usable))
        begins = case.sequence.begins if case.sequence is not None else None
        length = show(batch.duration, "time", "h")
        if begins is None:
            items.append(("takes", length, f"{batch.injections} injections"))
        else:
            ends = clock_at(begins, batch.duration)
            more = f"{ends:%Y-%m-%d}; {length}, {batch.injections} injections"
            items.append(("done at", f"{ends:%H:%M}", more))
    return keys_element(items) if items else element("p", "Not rehearsed.", class_="small")


def _run(case: RunCase, number: int, *, first: bool) -> Element:
    done = case.rehearsal is not None and case.run.done
    figures: list[Element] = []
    keys = None
    if done:
        items = _run_keys([case])
        items.append(("CO2 a run", show(case.run.co2_per_cycle, "mass", "g"), ""))
        cycle = show(case.run.programme.cycle, "time", "min")
        items.append(("cycle", cycle, "run length and settling time"))
        keys = keys_element(items)
        figures = _figures_of(f"run-{number + 1}", case)
    return element(
        "section",
        element("h2", case.name),
        element("p", case.documents["method"].path, class_="path"),
        keys,
        element("div", block_element(pressure_block(case.name, case)), class_="blocks"),
        _figures(figures),
        class_="run first" if first else "run",
    )


def _standing(prepared: Prepared) -> Iterator[Element]:
    how = prepared.standing
    if how is None:
        return
    counts = f"{len(how.new)} new, {len(how.worse)} worse, {len(how.known)} unchanged, "
    yield element("h2", "Against the base report")
    yield element("p", f"{counts}{len(how.gone)} gone")
    gone = [element("li", f"gone: {m.grade}: {m.message} ({m.path}) [{m.rule}]") for m in how.gone]
    if gone:
        yield element("ul", *gone, class_="plain")


def _provenance(report: Report) -> Element:
    tables = table_record()
    given = [element("p", f"Typed for this run: {path} = {text}") for path, text in report.given]
    rows = [
        (document.path, document.kind or "-", document.read.sha256)
        for document in report.documents.values()
    ]
    table = papers_element(rows, "Documents judged")
    return element(
        "footer",
        element("h2", "Provenance"),
        element("p", f"methodlint {__version__}, properties from {tables.library}"),
        element("p", "Property tables SHA-256 ", element("span", tables.sha256, class_="hash")),
        *given,
        element("p", PREDICTED.capitalize() + "."),
        table,
        class_="small",
    )
