"""Density and temperature of the mobile phase along the packed beds."""

from __future__ import annotations

import numpy as np

from methodlint.documents.quantities.format import number, show
from methodlint.judging.case import RunCase
from methodlint.reports.card.pressures import minutes
from methodlint.reports.html.chart import STYLES, Chart, label_room, nice_ticks
from methodlint.reports.html.figure import Figure
from methodlint.reports.html.thinning import few_rows

__all__ = ["column_figures"]

_MOST = 10
_ZERO = 273.15


def column_figures(name: str, case: RunCase) -> tuple[Figure, Figure]:
    """Density, and temperature between the oven's and that without heat from it.

    Both at the minute when the column loses most pressure.
    """
    run = case.run
    first = run.slices_of(run.train.columns[0]).start
    last = run.slices_of(run.train.columns[-1]).stop
    row = int(np.argmax(run.pressure[:, first] - run.pressure[:, last]))
    when = minutes(float(run.time[row]))
    middle = 100.0 * (np.arange(last - first) + 0.5) / (last - first)
    density = run.density[row, first:last]
    band = run.fluid.density_band(
        run.w_with_makeup[row, first:last],
        run.temperature[row, first:last],
        0.5 * (run.pressure[row, first:last] + run.pressure[row, first + 1 : last + 1]),
    )
    low, high = density * (1.0 - band), density * (1.0 + band)
    fall = 100.0 * float(1.0 - density[-1] / density[0])
    title = f"Density along the column at {when} min"
    words = f"From inlet to outlet it falls by {number(fall, 2)} %."
    pad = 0.1 * float(high.max() - low.min()) + 1.0
    chart = Chart(
        f"{name}-density", title, words, (0.0, 100.0),
        (max(float(low.min()) - pad, 0.0), float(high.max()) + pad),
        "% of the bed", "kg/m3", right=label_room(["density"]),
    )  # fmt: skip
    kept = few_rows(middle, [density], _MOST)
    chart.y_axis()
    chart.x_axis([(tick, number(tick)) for tick in nice_ticks(0.0, 100.0, 5)])
    chart.area([(float(middle[i]), float(low[i]), float(high[i])) for i in kept], STYLES[0])
    chart.line("density", [(float(middle[i]), float(density[i])) for i in kept], STYLES[0])
    rows = [
        (number(float(middle[i])), f"{density[i]:.0f}", f"+-{100 * band[i]:.1f} %") for i in kept
    ]
    dense = Figure(title, words, chart.svg(), ("% of the bed", "kg/m3", "band"), tuple(rows))
    return dense, _temperature(f"{name}-temperature", case, row)


def _temperature(name: str, case: RunCase, row: int) -> Figure:
    run = case.run
    first = run.slices_of(run.train.columns[0]).start
    last = run.slices_of(run.train.columns[-1]).stop
    alone = run.adiabatic_column.temperature[row] - _ZERO
    place = 100.0 * np.arange(alone.size) / (alone.size - 1)
    heated = np.concatenate(
        [run.temperature[row, first:last], run.temperature[row, last - 1 : last]]
    )
    heated = heated - _ZERO
    cooling = float(alone[0] - alone[-1])
    way = "cools" if cooling >= 0.0 else "warms"
    title = f"Temperature along the column at {minutes(float(run.time[row]))} min"
    words = (
        f"Without heat from the oven the mobile phase {way} by "
        f"{show(abs(cooling), 'temperature difference')}; the true one lies between the lines."
    )
    names = ("oven", "no heat exchanged")
    ends = np.concatenate([alone, heated])
    pad = 0.1 * float(np.ptp(ends)) + 0.5
    chart = Chart(
        name, title, words, (0.0, 100.0), (float(ends.min()) - pad, float(ends.max()) + pad),
        "% of the bed", "degC", right=label_room(names),
    )  # fmt: skip
    kept = few_rows(place, [alone, heated], _MOST)
    chart.y_axis()
    chart.x_axis([(tick, number(tick)) for tick in nice_ticks(0.0, 100.0, 5)])
    for values, text, style in ((heated, names[0], STYLES[2]), (alone, names[1], STYLES[1])):
        chart.line(text, [(float(place[i]), float(values[i])) for i in kept], style)
    rows = [(number(float(place[i])), f"{heated[i]:.1f}", f"{alone[i]:.1f}") for i in kept]
    headers = ("% of the bed", "oven degC", "no heat degC")
    return Figure(title, words, chart.svg(), headers, tuple(rows))
