"""Logged pressures in place of one measured drop: towards danger at once, towards safety slowly."""

from __future__ import annotations

import datetime
import math

import numpy as np
import pytest

from methodlint.checking.check import judge_documents
from methodlint.checking.report import Report
from methodlint.hydraulics.drop_band import uncalibrated_drop_band
from methodlint.judging.loader import built_in_rules
from methodlint.rehearsal.history.calibration import logged_column
from methodlint.rehearsal.history.history import history_of
from methodlint.rehearsal.history.readings import LogReading
from methodlint.rehearsal.history.thresholds import Thresholds
from methodlint.rehearsal.plan.logged_column import LoggedColumn
from methodlint.rulebook.examples import _library, lab_with
from tests.history.simulated import predicted
from tests.rules.history.logged import GOOD, daily, entries

DAY = datetime.date(2026, 11, 24)
BEGIN = datetime.datetime(2026, 11, 2, 9, 0)


def _logged(
    *pressures: float, bench: str = "bench-a", same_day: bool = False
) -> LoggedColumn | None:
    """Readings of a column whose card is met at 199 bar, 65 bar of it in the bed; one a day."""
    step = datetime.timedelta(minutes=10) if same_day else datetime.timedelta(days=1)
    readings = [
        LogReading(
            n, BEGIN + n * step, bench, "assay", "", "column-1",
            start=pressure * 1e5, predicted=predicted(),
        )
        for n, pressure in enumerate(pressures)
    ]  # fmt: skip
    history = history_of(readings, [], Thresholds())
    return logged_column(history, "column-1", "bench-a", "assay", DAY)


@pytest.mark.parametrize(
    ("pressures", "same_day"),
    [
        pytest.param((190.0, 190.0), False, id="two readings"),
        pytest.param((190.0, 190.0, 190.0), True, id="three on one day"),
    ],
)
def test_few_readings_narrow_nothing(pressures: tuple[float, ...], *, same_day: bool) -> None:
    found = _logged(*pressures, same_day=same_day)
    assert found is not None and found.calibrations == ()
    assert found.above(1000.0) == 0.0 and "too few" in found.words


def test_one_high_reading_counts_at_once() -> None:
    found = _logged(225.0)
    assert found is not None and found.calibrations == ()
    # 91 bar in the bed in place of 65.
    assert found.above(1000.0) == pytest.approx(0.40 + found.band, abs=0.02)


def test_three_on_two_days_say_how_much_is_lost() -> None:
    found = _logged(212.0, 213.0, 211.0)
    assert found is not None
    assert found.flow_resistance == pytest.approx(1200.0, rel=0.01)
    assert found.band < 0.06 and found.above(found.flow_resistance) == 0.0
    assert "3 logged pressures on bench-a, 2026-11-02 to 2026-11-04" in found.words
    assert "the latest 20 d before" in found.words


@pytest.mark.parametrize("low", [1, 2])
def test_low_readings_at_the_end_clear_nothing(low: int) -> None:
    before = _logged(*[225.0] * 6)
    after = _logged(*[225.0] * 6, *[185.0] * low)
    assert before is not None and after is not None
    assert after.flow_resistance == pytest.approx(before.flow_resistance, rel=1e-6)


def test_high_reading_holds_until_three_on_two_days_answer_it() -> None:
    level = (199.0, 199.5, 198.5, 199.0, 199.0, 199.0)
    for answers, counts in ((0, True), (1, True), (2, True), (3, False)):
        found = _logged(*level, 235.0, *level[:answers])
        assert found is not None
        assert (found.above(found.flow_resistance) > 0.3) is counts, answers


def test_another_bench_counts_less_its_tubes() -> None:
    found = _logged(212.0, 213.0, 211.0, 212.0, bench="bench-b")
    assert found is not None and found.calibrations
    assert found.band >= 0.05 and "bench-b, less its tubes" in found.words


def test_later_readings_take_no_part() -> None:
    readings = [
        LogReading(
            n, datetime.datetime(2026, 11, 25 + n, 9), "bench-a", "assay", "", "column-1",
            start=230e5, predicted=predicted(),
        )
        for n in range(4)
    ]  # fmt: skip
    history = history_of(readings, [], Thresholds())
    assert logged_column(history, "column-1", "bench-a", "assay", DAY) is None


# A whole check ------------------------------------------------------------------------------


def _checked(log: str, column: str = "logbook: logbook") -> Report:
    documents = lab_with(f"kind: column\n{column}\n---\n{log}")
    library = _library(documents)
    report = judge_documents(library, [documents["sequence"]], built_in_rules())
    assert not report.failed
    return report


def _pump(report: Report) -> tuple[float, float, float]:
    """Highest pressure at the pumps and its band below and above [bar]."""
    (case,) = report.runs
    top = case.run.highest(case.run.pump_pressure)
    return top.value / 1e5, (top.below or top.band) / 1e5, top.band / 1e5


def test_band_narrows_and_the_card_says_from_what() -> None:
    rows = [f"date: 2026-11-{n:02}, start_pressure: {p} bar, highest_pressure: {p + 79} bar"
            for n, p in enumerate(GOOD, 10)]  # fmt: skip
    plain, logged = _checked(entries(*rows), "title: no log"), _checked(entries(*rows))
    assert _pump(logged)[0] == pytest.approx(_pump(plain)[0], abs=3.0)
    assert sum(_pump(logged)[1:]) < 0.5 * sum(_pump(plain)[1:])
    assert logged.verdict == plain.verdict == "clear to run"
    words = logged.runs[0].run.plan.logged
    assert words is not None and "12 logged pressures on instrument" in words.words


def test_aged_column_is_held_that_its_card_clears() -> None:
    rows = [f"date: 2026-11-{n:02}, start_pressure: {p} bar, highest_pressure: {p + 160} bar"
            for n, p in enumerate((262, 264, 263, 265), 17)]  # fmt: skip
    report = _checked(entries(*rows))
    assert _pump(report)[0] > 400.0 and report.verdict == "do not run"


def test_one_bad_low_reading_moves_no_verdict_to_clear() -> None:
    high = [f"date: 2026-11-{n:02}, start_pressure: 262 bar, highest_pressure: 423 bar"
            for n in range(17, 21)]  # fmt: skip
    low = "date: 2026-11-22, start_pressure: 205 bar, highest_pressure: 270 bar"
    assert _checked(entries(*high, low)).verdict == "do not run"
    # And one that is too low by itself changes nothing of a card's own band.
    assert _pump(_checked(entries(low))) == _pump(_checked(daily([]), "title: no log"))


def test_logbook_that_is_not_there_is_no_clearance() -> None:
    documents = lab_with("kind: column\nlogbook: nowhere")
    report = judge_documents(_library(documents), [documents["sequence"]], built_in_rules())
    assert report.verdict == "do not run" and report.unusable


@pytest.mark.long
def test_bands_hold_and_are_narrower_than_without() -> None:
    """Simulated columns: resistances over the span of the uncalibrated band, readings with 1.5 bar."""
    rng = np.random.default_rng(77)
    below, above = (float(side) for side in uncalibrated_drop_band(0.05))
    inside, widths = 0, []
    count = 400
    for _ in range(count):
        true = math.exp(rng.normal(0.0, math.log1p(above) / 2.0))
        pressures = 134.0 + 65.0 * true + rng.normal(0.0, 1.5, 8)
        found = _logged(*pressures)
        assert found is not None and found.calibrations
        factor = found.flow_resistance / 1000.0
        widest = max(found.band, found.above(found.flow_resistance))
        inside += factor * (1.0 - found.band) <= true <= factor * (1.0 + widest)
        widths.append(found.band + widest)
    assert inside / count >= 0.95
    assert np.median(widths) < 0.4 * (below + above)
