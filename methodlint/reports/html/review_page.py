"""A review as a page: findings, columns and peaks over time, CO2 by weight, every run."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator, Mapping, Sequence

from methodlint.checking.review import Review
from methodlint.rehearsal.history.change import Point
from methodlint.reports.html.chart import STYLES, Chart, label_room
from methodlint.reports.html.element import Element, element
from methodlint.reports.html.figure import Figure
from methodlint.reports.html.findings import finding_elements, rest_elements, unjudged_elements
from methodlint.reports.html.pieces import block_element, figure_element, papers_element
from methodlint.reports.html.shell import banner, whole_page
from methodlint.reports.prepared import Prepared
from methodlint.reports.review_blocks import measured_and_predicted, review_blocks, span_words
from methodlint.reports.wording import summary
from methodlint.version import __version__

__all__ = ["review_page"]

_MOST_POINTS = 150
_DAY = 86400.0


def review_page(review: Review) -> str:
    """Write a review as a page of HTML that stands alone."""
    title = review.logbook.model.title or review.logbook.name
    return whole_page(f"Review: {title}", _parts(review, title))


def _parts(review: Review, title: str) -> Iterator[Element]:
    report = review.report
    prepared = Prepared(report, notes=True)
    yield element("p", "Review of a logbook · measured against predicted", class_="small")
    yield element("h1", title)
    yield element("p", review.logbook.path, class_="path")
    serious = [one for one in report.findings if one.grade != "note"]
    words = "CHANGES FOUND" if serious else "NO CHANGE FOUND"
    yield banner("care" if serious else "good", words, f"{span_words(review)}; {summary(report)}")
    yield from unjudged_elements(report)
    found = finding_elements(prepared, ("stop", "fault", "caution", "note"))
    if found:
        yield element("h2", "Findings")
        yield from found
    yield element("h2", "Over time")
    yield from (figure_element(figure) for figure in _figures(review))
    yield element(
        "div", *(block_element(block) for block in review_blocks(review)), class_="blocks"
    )
    yield from rest_elements(report)
    rows = [(d.path, d.kind or "-", d.read.sha256) for d in report.documents.values()]
    yield element(
        "footer",
        element("h2", "Provenance"),
        element("p", f"methodlint {__version__}"),
        papers_element(rows, "Documents"),
        class_="small",
    )


def _figures(review: Review) -> Iterator[Figure]:
    history = review.history
    number = 0
    for one in history.columns:
        if len(one.points) < 2:
            continue
        number += 1
        title = f"Resistance of {one.column} on {one.bench}"
        changes = [change for change in (one.rise, one.fall) if change is not None]
        yield _over_time(
            f"column-{number}",
            title,
            {"resistance": one.points},
            history.thresholds.resistance_change,
            [change.began for change in changes],
        )
    for peak in history.peaks:
        lines = {"retention": peak.retention, "plates": peak.plates}
        known = {name: points for name, points in lines.items() if len(points) > 1}
        if known:
            number += 1
            title = f"{peak.name}, {peak.method} on {peak.column}, {peak.bench}"
            both = [peak.retention_change, peak.plates_fall]
            begun = [change.began for change in both if change is not None]
            yield _over_time(f"peak-{number}", title, known, None, begun)
    yield from _pressures(review)


def _thinned(points: Sequence[Point]) -> Sequence[Point]:
    if len(points) <= _MOST_POINTS:
        return points
    step = (len(points) - 1) / (_MOST_POINTS - 1)
    return [points[round(number * step)] for number in range(_MOST_POINTS)]


def _over_time(
    name: str,
    title: str,
    lines: Mapping[str, Sequence[Point]],
    threshold: float | None,
    begun: Sequence[Point],
) -> Figure:
    """Draw ratios to the first level, in per cent, over days."""
    shown = {label: _thinned(points) for label, points in lines.items()}
    everything = [point for points in shown.values() for point in points]
    first = min(point.moment for point in everything)
    last = max(point.moment for point in everything)
    values = [100.0 * math.exp(point.value) for point in everything]
    margin = 100.0 * threshold if threshold is not None else 5.0
    span = min(*values, 100.0 - 1.3 * margin), max(*values, 100.0 + 1.3 * margin)
    latest = ", ".join(
        f"{label} {100.0 * math.exp(points[-1].value):.0f} %" for label, points in shown.items()
    )
    words = f"In per cent of the first good readings; the latest: {latest}."
    chart = Chart(
        name,
        title,
        words,
        (0.0, max(_days(first, last), 1.0)),
        span,
        "day",
        "% of first",
        right=label_room([*lines, "limit"]),
    )
    chart.y_axis()
    chart.x_axis(_day_ticks(first, last))
    if threshold is not None:
        chart.level(100.0 * (1.0 + threshold), "limit")
        chart.level(100.0 * (1.0 - threshold), "limit")
    for number, (label, points) in enumerate(shown.items()):
        places = [(_days(first, p.moment), 100.0 * math.exp(p.value)) for p in points]
        chart.line(label, places, STYLES[number % len(STYLES)])
    for point in begun:
        x, y = chart.x(_days(first, point.moment)), chart.y(100.0 * math.exp(point.value))
        chart.ring(x, y)
        chart.note(x, y - 10.0, f"since {point.moment:%Y-%m-%d}")
    rows = sorted(
        (f"{point.moment:%Y-%m-%d %H:%M}", label, f"{100.0 * math.exp(point.value):.1f} %")
        for label, points in shown.items()
        for point in points
    )
    return Figure(title, words, chart.svg(), ("when", "what", "of first"), tuple(rows))


def _days(first: datetime.datetime, moment: datetime.datetime) -> float:
    return (moment - first).total_seconds() / _DAY


def _day_ticks(first: datetime.datetime, last: datetime.datetime) -> list[tuple[float, str]]:
    days = max(int(_days(first, last)), 1)
    step = max(1, -(-days // 5))
    return [
        (float(n), f"{first + datetime.timedelta(days=n):%m-%d}") for n in range(0, days + 1, step)
    ]


def _pressures(review: Review) -> Iterator[Figure]:
    """Measured over predicted pressure of every run."""
    points: dict[str, list[Point]] = {}
    for one in review.history.readings:
        for what, measured, expected, _, _ in measured_and_predicted(one):
            ratio = math.log(measured / expected)
            points.setdefault(f"at {what}", []).append(Point(one.moment, ratio, one.entry))
    known = {name: found for name, found in points.items() if len(found) > 1}
    if not known:
        return
    figure = _over_time("pressures", "Pump pressure, measured over predicted", known, None, ())
    yield Figure(
        figure.title,
        "In per cent of what was predicted, run by run.",
        figure.drawing,
        ("when", "what", "of predicted"),
        figure.rows,
    )
