"""The windows of a method's settings as one page: the map, the edges, the figures of every point."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from methodlint.fluids.table_record import table_record
from methodlint.judging.finding import Measure
from methodlint.reports.consequences import RUN_QUANTITIES, rounded
from methodlint.reports.html.element import Element, element
from methodlint.reports.html.figure_region import MAP_BOX, drawn_region, key_element, marked_edges
from methodlint.reports.html.pieces import papers_element, rows_element, table_element
from methodlint.reports.html.shell import Mood, banner, whole_page
from methodlint.reports.html.window_script import SCRIPT
from methodlint.reports.window_text import edge_words, own_words, reason_words
from methodlint.reports.wording import figure
from methodlint.version import __version__
from methodlint.window.edges import Edge
from methodlint.window.entry import Window
from methodlint.window.region import Region
from methodlint.window.trials import Outcome, State

__all__ = ["window_page"]

_STATES: tuple[State, ...] = ("holds", "with care", "in the band", "fails", "not judged")
_SAID: dict[State, str] = {
    "holds": "every check holds",
    "with care": "every check holds, with a caution",
    "in the band": "a limit lies within its band",
    "fails": "a check fails",
    "not judged": "not judged: a check that could stop was not made",
}
_SHOWN = (
    "highest_pump_pressure",
    "least_boundary_margin",
    "lowest_mean_column_density",
    "hold_up_time_at_start",
    "co2_per_run",
)


def window_page(found: Window) -> str:
    """Write a window as a page of HTML that needs no network: the same bytes on every run."""
    method = found.run.documents["method"]
    title = getattr(method.model, "title", None) or method.name
    script = SCRIPT if found.region is not None else ""
    return whole_page(f"Window: {title}", _parts(found, title), script=script)


def _parts(found: Window, title: str) -> Iterator[Element]:
    yield element(
        "p", "Window of the settings · predicted; verify on the instrument", class_="small"
    )
    yield element("h1", title)
    yield element("p", found.run.name, class_="path")
    mood: Mood = "good" if found.holds else "stop" if found.own.state == "fails" else "care"
    yield banner(mood, found.own.state.upper(), f"{own_words(found)}.".capitalize())
    if not found.holds:
        reasons = [element("li", reason_words(reason)) for reason in found.own.reasons]
        yield element("ul", *reasons, class_="plain")
    if found.region is not None:
        yield from _map(found, found.region)
    yield element("h2", "How far each setting may move by itself")
    yield element("p", "All other settings stay. Each edge is a run on either side of it, judged by "
                  "the rules of check.", class_="small")  # fmt: skip
    for axis in found.axes:
        edges = [edge for edge in found.edges if edge.axis is axis]
        yield element(
            "section",
            element("h3", axis.name, element("span", axis.words(axis.value))),
            rows_element([(edge.direction, _edge(edge)) for edge in edges]),
            class_="block setting",
        )
    yield _provenance(found)


def _edge(edge: Edge) -> str:
    return "; ".join(edge_words(edge))


def _map(found: Window, region: Region) -> Iterator[Element]:
    yield element("h2", f"{region.y.name.capitalize()} and {region.x.name} together")
    yield element(
        "p",
        "Click into the map, or give it the focus and press the arrow keys (with Shift: further; "
        "Home: back to the method): the figures beside it are those of the nearest point that was "
        "computed.",
        class_="small",
        id="how",
    )
    plane = element(
        "div",
        drawn_region(found, region),
        key_element(),
        id="plane",
        class_="plane",
        tabindex="0",
        role="group",
        aria_label="Map of the two settings",
        aria_describedby="how",
    )
    shown = element(
        "div",
        element("h3", "Nearest computed point"),
        element("div", rows_element(_rows(region, found.own)), id="shown", role="status"),
        class_="block",
    )
    yield element("div", plane, shown, class_="pair")
    edges = [
        (str(edge.number), edge.rule, _SAID[edge.state], _where(region, edge.place))
        for edge in marked_edges(region)
    ]
    if edges:
        headers = ("edge", "check that ends the region", "beyond it", "marked at")
        yield table_element(headers, edges, {1, 2, 3}, "Edges of the map", class_="setting")
    yield _data(found, region)


def _where(region: Region, place: tuple[float, float]) -> str:
    x, y = region.values(place)
    return f"{x:.3g} {region.x.unit}, {y:.3g} {region.y.unit}"


def _rows(region: Region, outcome: Outcome) -> list[tuple[str, str]]:
    rows = [
        (region.x.name, region.x.words(region.x.value)),
        (region.y.name, region.y.words(region.y.value)),
        ("state", _SAID[outcome.state]),
    ]
    if outcome.rules:
        rows.append(("checks", ", ".join(outcome.rules)))
    for quantity in _quantities():
        if quantity.key in outcome.figures:
            value = rounded(outcome.figures[quantity.key])
            said = "not known" if value is None else figure(Measure(value, quantity.unit))
            rows.append((quantity.words, said))
    return rows


def _quantities() -> list[Any]:
    return [quantity for quantity in RUN_QUANTITIES if quantity.key in _SHOWN]


def _data(found: Window, region: Region) -> Element:
    quantities = _quantities()
    rules: dict[str, int] = {}
    points = [_point(region, (region.x.value, region.y.value), found.own, rules)]
    points += [
        _point(region, region.values(spot), outcome, rules)
        for spot, outcome in sorted(region.points.items())
    ]
    plain = {
        "x": _axis(region.x.name, region.x.unit, region.x_span),
        "y": _axis(region.y.name, region.y.unit, region.y_span),
        "own": [rounded(region.x.value), rounded(region.y.value)],
        "box": MAP_BOX,
        "states": [_SAID[state] for state in _STATES],
        "rules": list(rules),
        "figures": [[quantity.words, quantity.unit] for quantity in quantities],
        "points": points,
    }
    text = json.dumps(plain, ensure_ascii=True, allow_nan=False, separators=(",", ":"))
    # Nothing in the data can end the element that it stands in.
    return Element("script", (("type", "application/json"), ("id", "points")),
                   (text.replace("<", "\\u003c"),), raw=True)  # fmt: skip


def _axis(name: str, unit: str, span: Sequence[float]) -> dict[str, Any]:
    return {"name": name, "unit": unit, "span": [rounded(value) for value in span]}


def _point(
    region: Region, values: tuple[float, float], outcome: Outcome, rules: dict[str, int]
) -> list[Any]:
    numbers = [rules.setdefault(rule, len(rules)) for rule in outcome.rules]
    figures = [rounded(outcome.figures.get(quantity.key)) for quantity in _quantities()]
    return [
        *(float(f"{value:.5g}") for value in values),
        _STATES.index(outcome.state),
        numbers,
        [None if value is None else float(f"{value:.4g}") for value in figures]
        if outcome.figures
        else [],
    ]


def _provenance(found: Window) -> Element:
    tables = table_record()
    documents: Iterable[Any] = [*found.run.documents.values(), *found.run.columns]
    rows = sorted({(one.path, one.kind, one.read.sha256) for one in documents})
    return element(
        "footer",
        element("h2", "Provenance"),
        element("p", f"methodlint {__version__}, properties from {tables.library}"),
        element("p", "Property tables SHA-256 ", element("span", tables.sha256, class_="hash")),
        papers_element(rows, "Documents read"),
        class_="small",
    )
