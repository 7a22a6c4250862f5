"""Drawings of the phase boundary and of the column against the rehearsal that they draw."""

from __future__ import annotations

import re

import numpy as np
import pytest

from methodlint.judging.case import RunCase
from methodlint.reports.html.chart import STYLES, Chart
from methodlint.reports.html.element import markup
from methodlint.reports.html.figures_column import column_figures
from methodlint.reports.html.figures_phase import composition_figure, margin_figure
from tests.reports.scratch_lab import example_report


def _case(part: str) -> RunCase:
    return example_report(part).runs[0]


def _ends(text: str) -> tuple[float, float, float]:
    middle, low, high = re.fullmatch(r"(\d+) \((\d+) to (\d+)\)", text).groups()
    return float(low), float(middle), float(high)


def test_the_boundary_is_drawn_with_both_ends_of_its_band() -> None:
    case = _case("sound/flavonoid-aglycones.yaml")
    figure = margin_figure("x", case)
    assert figure is not None
    band = case.run.fluid.boundary_band(*case.run.outlet_states[:2])
    for text, below, above in (
        (figure.rows[0][2], band.below[0], band.above[0]),
        (figure.rows[-1][2], band.below[-1], band.above[-1]),
    ):
        low, middle, high = _ends(text)
        assert middle - low == pytest.approx(below / 1e5, abs=1.1)
        assert high - middle == pytest.approx(above / 1e5, abs=1.1)


def test_the_composition_is_the_one_that_arrives() -> None:
    """After a ramp from 0 min the column outlet lags the pumps by dwell and hold-up time."""
    case = _case("sound/flavonoid-aglycones.yaml")
    figure = margin_figure("x", case)
    assert figure is not None
    run = case.run
    late = float(run.time[int(np.argmax(run.column_outlet_share))])
    pumped = float(run.time[int(np.argmax(run.pumped_share))])
    assert late > pumped + 0.5 * float(run.hold_up_time.min())
    richest = max(figure.rows, key=lambda row: float(row[3]))
    assert float(richest[3]) == pytest.approx(100 * run.column_outlet_share.max(), rel=0.01)


def test_two_phases_are_below_the_drawn_boundary() -> None:
    hot = composition_figure("x", _case("flawed/terpenoids-hot-and-low.yaml"))
    cool = composition_figure("x", _case("sound/flavonoid-aglycones.yaml"))
    assert hot is not None
    assert cool is not None
    assert "the stream is two phases" in hot.words
    assert "the stream is one phase" in cool.words


def test_neat_co2_has_no_boundary_to_draw() -> None:
    case = _case("sound/lubricant-flame.yaml")
    assert margin_figure("x", case) is None
    dense, warm = column_figures("x", case)
    assert dense.rows
    assert warm.rows


def test_density_falls_and_the_temperature_begins_at_the_ovens() -> None:
    case = _case("sound/flavonoid-aglycones.yaml")
    dense, warm = column_figures("x", case)
    inside = case.run.slices_of(case.run.plan.analytical_column)
    plotted = [float(row[1]) for row in dense.rows]
    assert plotted == sorted(plotted, reverse=True)
    assert plotted[0] <= case.run.density[:, inside].max() + 0.5
    oven = float(case.run.temperature[0, inside.start]) - 273.15
    assert float(warm.rows[0][2]) == pytest.approx(oven, abs=0.1)
    cooling = case.run.adiabatic_column.cooling
    shown = float(warm.rows[0][2]) - float(warm.rows[-1][2])
    assert np.abs(cooling - shown).min() < 0.15


def test_an_area_is_shaded_between_both_lines_and_parted_by_gaps() -> None:
    chart = Chart("x", "t", "d", (0.0, 4.0), (0.0, 10.0), "min", "bar")
    nan = float("nan")
    chart.area([(0, 1, 2), (1, 1, 2), (2, nan, nan), (3, 4, 5), (4, 4, 5)], STYLES[0])
    outlines = re.findall(r'<polygon points="([^"]+)"', markup(chart.svg()))
    assert [len(outline.split()) for outline in outlines] == [4, 4]
    first = [tuple(map(float, pair.split(","))) for pair in outlines[0].split()]
    assert {round(y, 1) for _, y in first} == {round(chart.y(1), 1), round(chart.y(2), 1)}
