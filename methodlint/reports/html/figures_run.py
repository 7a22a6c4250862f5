"""Drawings of one run: pressure along the train, and over the time of the run."""

from __future__ import annotations

import math

import numpy as np

from methodlint.documents.quantities.format import number, show
from methodlint.judging.case import RunCase
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.states import FloatArray
from methodlint.rehearsal.run.train_places import TrainPlace, tightest_row, train_places
from methodlint.reports.card.pressures import bar, margin_words, minutes
from methodlint.reports.html.chart import STYLES, Chart, label, label_room, nice_ticks, text_length
from methodlint.reports.html.element import element
from methodlint.reports.html.figure import Figure
from methodlint.reports.html.figures_phase import boundary_over_time
from methodlint.reports.html.thinning import few_rows

__all__ = ["run_figure", "train_figure"]

_LIMIT_COLOUR = "#a11622"
_TURN = 38
_VARIES = 2e5
_ROOM_FOR_TEXT = 20.0
_WORTH_DRAWING = 0.75


def train_figure(name: str, case: RunCase) -> Figure:
    """Pressure from the pumps to the regulator at the minute when a limit is nearest."""
    run = case.run
    places = train_places(run)
    row = tightest_row(run, places)
    pressures = [float(place.pressure[row]) for place in places]
    limits = [None if place.limit is None else float(place.limit[row]) for place in places]
    limits = [limit if limit is not None and math.isfinite(limit) else None for limit in limits]
    top = max([*pressures, *(limit for limit in limits if limit is not None)]) * 1.08 / 1e5
    when = minutes(float(run.time[row]))
    title = f"Pressure along the train at {when} min, the worst minute"
    worst = _nearest(places, pressures, limits)
    longest = max(text_length(_short(place.name)) for place in places)
    bottom = 26.0 + longest * math.sin(math.radians(_TURN))
    chart = Chart(
        name,
        title,
        f"From {bar(pressures[0])} bar at the pumps down to {bar(pressures[-1])} bar at the "
        f"regulator, with what each part withstands. {worst}",
        (-0.5, len(places) - 0.5),
        (0.0, top),
        "",
        "bar",
        right=70.0,
        bottom=bottom,
        height=234.0 + bottom,
    )
    chart.y_axis()
    line = [(index, value / 1e5) for index, value in enumerate(pressures)]
    chart.line("pressure", line, STYLES[0])
    floor = chart.height - chart.bottom
    for index, (place, limit) in enumerate(zip(places, limits, strict=True)):
        pressure = pressures[index]
        x = chart.x(index)
        turn = f"rotate({-_TURN} {x:.1f} {floor + 14:.1f})"
        chart.add(label(x, floor + 14.0, _short(place.name), "end", transform=turn))
        if limit is not None:
            y, half = chart.y(limit / 1e5), 0.36 * (chart.x(1) - chart.x(0))
            # Where the pressure is above the limit its line runs there, and the figure goes below.
            beside = y + 16.0 if limit <= pressure else y - 6.0
            chart.add(
                element("rect", x=x - half, y=y - 2, width=2 * half, height=4, fill=_LIMIT_COLOUR),
                label(x, beside, bar(limit), "middle", "over", fill=_LIMIT_COLOUR),
            )
    side = chart.width - chart.right + 7.0
    chart.add(
        element("rect", x=side, y=10.0, width=16.0, height=4.0, fill=_LIMIT_COLOUR),
        label(side + 20.0, 16.0, "limit", "start", fill=_LIMIT_COLOUR),
    )
    rows = [
        (
            place.name,
            bar(pressure),
            "-" if limit is None else bar(limit),
            "-" if limit is None else bar(limit - pressure),
        )
        for place, pressure, limit in zip(places, pressures, limits, strict=True)
    ]
    return Figure(title, worst, chart.svg(), ("part", "bar", "limit", "margin"), tuple(rows))


def _nearest(places: list[TrainPlace], pressures: list[float], limits: list[float | None]) -> str:
    margins = [
        (limit - pressure, place.name)
        for place, pressure, limit in zip(places, pressures, limits, strict=True)
        if limit is not None
    ]
    if not margins:
        return "No card gives a limit."
    margin, name = min(margins)
    if margin < 0.0:
        return f"{name} is {show(-margin, 'pressure')} above its limit."
    return f"The nearest limit is that of {name}: {show(margin, 'pressure')} left."


def _short(name: str) -> str:
    return name if len(name) <= 22 else f"{name[:20]}…"


def run_figure(name: str, case: RunCase) -> Figure:
    """Column inlet, column outlet and phase boundary over the run, with the typed limits."""
    run = case.run
    inlet, outlet = run.column_inlet_pressure / 1e5, run.column_outlet_pressure / 1e5
    boundary = boundary_over_time(run) / 1e5
    time = run.time / 60.0
    highest, least = int(np.argmax(inlet)), int(np.argmin(run.least_margin))
    kept = few_rows(time, [inlet, outlet, boundary, 100.0 * run.column_outlet_share], 18)
    kept = sorted({*kept, highest, least})
    limits = case.method.pressure_limits if case.method else None
    typed = [
        (f"{word} limit {bar(value.si)}", value.si / 1e5)
        for word, value in (
            ("high", limits.high if limits else None),
            ("low", limits.low if limits else None),
        )
        if value is not None
    ]
    rating = _column_rating(run)
    if rating is not None and float(inlet[highest]) > _WORTH_DRAWING * rating:
        typed.append((f"column withstands {number(rating)}", rating))
    top = 1.08 * max([float(np.max(inlet)), *(value for _, value in typed)])
    margin = f"Phase boundary: {margin_words(run)}."
    title = "Pressure over the run"
    chart = Chart(
        name,
        title,
        f"Column inlet {number(float(inlet.min()), 3)} to {number(float(inlet.max()), 3)} bar, "
        f"column outlet {number(float(outlet.min()), 3)} to {number(float(outlet.max()), 3)} bar. "
        f"{margin}",
        (float(time[0]), float(time[-1])),
        (0.0, top),
        "min",
        "bar",
        right=label_room(text for text, _ in typed),
    )
    chart.y_axis()
    chart.x_axis([(tick, number(tick)) for tick in nice_ticks(*chart.x_span, 8)])
    for text, value in typed:
        chart.level(value, text)
    below, above = (side / 1e5 for side in run.pressure_band(run.column_inlet_pressure))
    chart.area(
        [(float(time[i]), float((inlet - below)[i]), float((inlet + above)[i])) for i in kept],
        STYLES[0],
    )
    for values, text, style in (
        (inlet, "column inlet", STYLES[0]),
        (outlet, "column outlet", STYLES[2]),
        (boundary, "phase boundary", STYLES[1]),
    ):
        chart.line(text, [(float(time[i]), float(values[i])) for i in kept], style)
    if _varies(run.column_inlet_pressure):
        said = f"{inlet[highest]:.0f} bar at {minutes(float(run.time[highest]))} min"
        at = chart.x(float(time[highest])), chart.y(float(inlet[highest]))
        chart.ring(*at)
        chart.note(at[0], at[1] - 8.0, said)
    if math.isfinite(boundary[least]) and _varies(run.least_margin):
        x = chart.x(float(time[least]))
        ends = sorted((chart.y(float(outlet[least])), chart.y(float(boundary[least]))))
        chart.span(x, *ends)
        when = minutes(float(run.time[least]))
        room = ends[1] - ends[0] > _ROOM_FOR_TEXT
        place = sum(ends) / 2.0 + 4.0 if room else min(ends[1] + 16.0, chart.y(0.0) - 5.0)
        chart.note(x, place, f"least margin, {when} min")
    share = 100.0 * run.column_outlet_share
    rows = [
        (
            minutes(60.0 * float(time[i])),
            f"{inlet[i]:.0f}",
            f"{outlet[i]:.0f}",
            f"{boundary[i]:.0f}" if math.isfinite(boundary[i]) else "-",
            number(float(share[i])),
        )
        for i in kept
    ]
    headers = ("min", "inlet bar", "outlet bar", "boundary bar", "arriving %")
    return Figure(title, margin, chart.svg(), headers, tuple(rows))


def _varies(values: FloatArray) -> bool:
    """Whether a pressure changes so much over the run that its worst minute is worth a mark."""
    good = values[np.isfinite(values)]
    return good.size > 0 and float(np.ptp(good)) > _VARIES


def _column_rating(run: Rehearsal) -> float | None:
    """Least rating of the columns [bar]."""
    ratings = [
        float(np.min(place.limit)) / 1e5
        for place in train_places(run)
        if place.kind == "column" and place.limit is not None
    ]
    return min(ratings, default=None)
