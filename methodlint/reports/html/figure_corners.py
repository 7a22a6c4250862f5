"""Density and pressure at the corners of the programme on both systems, as table and drawing."""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.documents.quantities.format import number, show
from methodlint.reports.html.chart import STYLES, Chart
from methodlint.reports.html.element import Element
from methodlint.reports.html.figure import Figure
from methodlint.reports.html.pieces import figure_element, table_element
from methodlint.scaling.density_match import CAUTION_ABOVE, FAULT_ABOVE, is_stiff
from methodlint.transfer.attempt import Attempt

__all__ = ["corner_elements", "largest_residual"]

_LINES = ("mean, source", "mean, here", "outlet, source", "outlet, here")


def largest_residual(tried: Attempt) -> float | None:
    """Largest relative difference of mean density; None where every corner is a stiff liquid."""
    found = [
        abs(left)
        for state, left in zip(tried.states, tried.residuals, strict=True)
        if not is_stiff(state.row) and math.isfinite(left)
    ]
    return max(found, default=None)


def corner_elements(tried: Attempt) -> Iterator[Element]:
    """Lay out the corners, drawn where there are several."""
    rows = []
    for number_, (match, state, left) in enumerate(
        zip(tried.matches, tried.states, tried.residuals, strict=True), start=1
    ):
        source = match.source
        standing = ""
        if is_stiff(state.row):
            standing = " low compressibility, not matched"
        elif abs(left) > FAULT_ABOVE:
            standing = " fault"
        elif abs(left) > CAUTION_ABOVE:
            standing = " caution"
        rows.append(
            (
                f"{number_}: {show(source.row.share, 'share')}",
                f"{left * 100:+.2f} %{standing}",
                _pair(source.row.outlet_pressure, state.row.outlet_pressure),
                _pair(source.pump_pressure, state.pump_pressure),
                f"{number(source.hold_up_time)} → {number(state.hold_up_time)}",
                f"{source.w_modifier * 100:.2f} → {state.w_modifier * 100:.2f}",
            )
        )
    headers = (
        "corner: modifier",
        "mean density off",
        "regulator bar",
        "pumps bar",
        "hold-up time s",
        "modifier % w/w",
    )
    yield table_element(headers, rows, (), "Source → here, at every corner of the programme")
    if len(rows) > 1:
        yield figure_element(_figure(tried))


def _pair(source: float, target: float) -> str:
    return f"{number(source / 1e5)} → {number(target / 1e5)}"


def _figure(tried: Attempt) -> Figure:
    pairs = list(zip(tried.matches, tried.states, strict=True))
    lines = [
        [match.source.mean_density for match, _ in pairs],
        [state.mean_density for _, state in pairs],
        [match.source.outlet_density for match, _ in pairs],
        [state.outlet_density for _, state in pairs],
    ]
    known = [value for line in lines for value in line if math.isfinite(value)]
    low, high = min(known, default=0.0), max(known, default=1.0)
    room = max(0.08 * (high - low), 5.0)
    title = "Density of the mobile phase at the corners"
    words = "Mean along the column and at its outlet, in kg/m3; the axis does not begin at zero."
    chart = Chart(
        "corners",
        title,
        words,
        (1.0, float(len(pairs))),
        (low - room, high + room),
        "corner of the programme, modifier share",
        "kg/m3",
    )
    chart.y_axis()
    shares = [show(match.source.row.share, "share") for match, _ in pairs]
    step = max(1, math.ceil(len(pairs) / 8))
    chart.x_axis([(i + 1.0, shares[i]) for i in range(0, len(pairs), step)])
    for name, line, style in zip(_LINES, lines, STYLES, strict=False):
        chart.line(name, [(i + 1.0, value) for i, value in enumerate(line)], style)
    rows = tuple(
        (
            f"{i + 1}: {shares[i]}",
            *(f"{line[i]:.0f}" if math.isfinite(line[i]) else "-" for line in lines),
        )
        for i in range(len(pairs))
    )
    return Figure(title, words, chart.svg(), ("corner", *_LINES), rows)
