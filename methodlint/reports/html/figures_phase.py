"""Drawings of one run against the phase boundary: over time, and over composition."""

from __future__ import annotations

import math

import numpy as np

from methodlint.documents.quantities.format import number, show
from methodlint.judging.case import RunCase
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.states import FloatArray
from methodlint.reports.card.pressures import margin_words, minutes
from methodlint.reports.html.chart import STYLES, Chart, label_room, nice_ticks
from methodlint.reports.html.figure import Figure
from methodlint.reports.html.thinning import few_rows

__all__ = ["boundary_over_time", "composition_figure", "margin_figure"]

_OUTLET, _BOUNDARY, _ALONG = STYLES[2], STYLES[1], STYLES[0]
_NODES = 41
_MOST = 14


def boundary_over_time(run: Rehearsal) -> FloatArray:
    """Pressure of the phase boundary where the column ends [Pa], shape (R,); nan without one."""
    end = run.slices_of(run.plan.analytical_column).stop - 1
    middle = 0.5 * (run.pressure[:, end] + run.pressure[:, end + 1])
    with np.errstate(invalid="ignore"):
        boundary = middle - run.boundary_margin[:, end]
    return np.where(np.isfinite(boundary) & (boundary > 0.0), boundary, np.nan)


def margin_figure(name: str, case: RunCase) -> Figure | None:
    """Column outlet and phase boundary over the run on a scale of their own, with their bands.

    None where the composition never forms two phases.
    """
    run = case.run
    boundary = boundary_over_time(run) / 1e5
    if not np.isfinite(boundary).any():
        return None
    outlet, time = run.column_outlet_pressure / 1e5, run.time / 60.0
    w, temperature, _ = run.outlet_states
    band = run.fluid.boundary_band(w, temperature)
    low, high = boundary - band.below / 1e5, boundary + band.above / 1e5
    below, above = (side / 1e5 for side in run.pressure_band(run.column_outlet_pressure))
    arriving = 100.0 * run.column_outlet_share
    kept = few_rows(time, [outlet, boundary, arriving], _MOST)
    title = "Column outlet against the phase boundary"
    words = f"Phase boundary: {margin_words(run)}."
    ends = np.concatenate([low, high, outlet - below, outlet + above])
    ends = ends[np.isfinite(ends)]
    pad = 0.06 * float(np.ptp(ends)) + 1.0
    span = max(float(ends.min()) - pad, 0.0), float(ends.max()) + pad
    names = ("column outlet", "phase boundary")
    chart = Chart(
        name, title, words, (float(time[0]), float(time[-1])), span, "min", "bar",
        right=label_room(names),
    )  # fmt: skip
    chart.y_axis()
    chart.x_axis([(tick, number(tick)) for tick in nice_ticks(*chart.x_span, 8)])
    for bottom, top, style in ((low, high, _BOUNDARY), (outlet - below, outlet + above, _OUTLET)):
        chart.area([(float(time[i]), float(bottom[i]), float(top[i])) for i in kept], style)
    for values, text, style in ((outlet, names[0], _OUTLET), (boundary, names[1], _BOUNDARY)):
        chart.line(text, [(float(time[i]), float(values[i])) for i in kept], style)
    rows = [
        (
            minutes(60.0 * float(time[i])),
            f"{outlet[i]:.0f}",
            _ends(boundary[i], low[i], high[i]),
            number(float(arriving[i])),
        )
        for i in kept
    ]
    headers = ("min", "outlet bar", "boundary bar", "arriving %")
    return Figure(title, words, chart.svg(), headers, tuple(rows))


def _ends(middle: float, low: float, high: float) -> str:
    return f"{middle:.0f} ({low:.0f} to {high:.0f})" if math.isfinite(middle) else "-"


def composition_figure(name: str, case: RunCase) -> Figure | None:
    """Phase diagram of pressure and composition with the way of the run through it.

    The boundary is that at the temperature of the column outlet when the margin is least; the
    way is that of the outlet over the run, and that of the stream down the train at that minute.
    None where no composition of the diagram forms two phases.
    """
    run = case.run
    row = int(np.argmin(run.least_margin))
    w_out, temperature, outlet = run.outlet_states
    at = float(temperature[row])
    richest = float(min(1.3 * np.max(run.w_with_makeup) + 0.05, 0.98))
    w = np.linspace(0.0, richest, _NODES)
    boundary = np.asarray(run.fluid.upper_boundary_pressure(w, np.full_like(w, at)))
    boundary = np.where(boundary > 0.0, boundary, np.nan) / 1e5
    if not np.isfinite(boundary).any():
        return None
    band = run.fluid.boundary_band(w, np.full_like(w, at))
    low, high = boundary - band.below / 1e5, boundary + band.above / 1e5
    first = run.slices_of(run.train.columns[0]).start
    down_w = 100.0 * run.w_with_makeup[row, first:]
    down_p = 0.5 * (run.pressure[row, first:-1] + run.pressure[row, first + 1 :]) / 1e5
    when, oven = minutes(float(run.time[row])), show(at, "temperature")
    title = f"Phase diagram at {oven}"
    inside = "two phases" if float(run.least_margin[row]) < 0.0 else "one phase"
    words = f"Below the boundary there are two phases; at {when} min the stream is {inside}."
    names = (f"down the train, {when} min", "column outlet", "phase boundary")
    top = 1.08 * max(float(np.max(down_p)), float(np.nanmax(high)), float(np.max(outlet)) / 1e5)
    chart = Chart(
        name, title, words, (0.0, 100.0 * richest), (0.0, top), "modifier, % w/w", "bar",
        right=label_room(names),
    )  # fmt: skip
    chart.y_axis()
    chart.x_axis([(tick, number(tick)) for tick in nice_ticks(*chart.x_span, 8)])
    nodes = few_rows(w, [boundary], _MOST)
    chart.area([(100.0 * float(w[i]), float(low[i]), float(high[i])) for i in nodes], _BOUNDARY)
    chart.line(names[2], [(100.0 * float(w[i]), float(boundary[i])) for i in nodes], _BOUNDARY)
    times = few_rows(run.time, [100.0 * w_out, outlet / 1e5], _MOST)
    chart.line(
        names[1], [(100.0 * float(w_out[i]), float(outlet[i]) / 1e5) for i in times], _OUTLET
    )
    places = few_rows(np.arange(down_p.size, dtype=float), [down_p], _MOST)
    chart.line(names[0], [(float(down_w[i]), float(down_p[i])) for i in places], _ALONG)
    rows = [(number(100.0 * float(w[i])), _ends(boundary[i], low[i], high[i])) for i in nodes]
    return Figure(title, words, chart.svg(), ("% w/w", "boundary bar"), tuple(rows))
