"""Segments and dwell: silent cases first."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

from .pairs import FROM, FROM_GRADIENT, GRADIENT, ISOCRATIC, WIDE

SEGMENTS = "transfer.gradient-not-scaled"
DWELL = "transfer.dwell-not-compensated"

SLOW = "\n---\nkind: instrument\nx-name: slow\ndwell_volume: 1.08 mL\n"


def programme(*rows: tuple[float, float], steps: bool = False) -> str:
    flag = ", step: true" if steps else ""
    lines = "\n".join(f"  - {{time: {t} min, modifier_share: {s} % v/v{flag}}}" for t, s in rows)
    return f"programme:\n{lines}\n"


SOURCE_ROWS = (0, 5), (10, 40), (12, 40), (13, 5)


@pytest.mark.parametrize("rule", [SEGMENTS, DWELL])
def test_silent_on_isocratic_methods(rule):
    text = ISOCRATIC + "run_length: 3 min" + FROM + "runs_on: [slow]\ncolumn: wide" + WIDE + SLOW
    assert findings(text, rule) == []


@pytest.mark.parametrize("rule", [SEGMENTS, DWELL])
def test_silent_on_a_transfer_to_the_same(rule):
    assert findings(GRADIENT + FROM_GRADIENT, rule) == []


@pytest.mark.parametrize("rule", [SEGMENTS, DWELL])
def test_silent_without_a_source(rule):
    assert findings("kind: method\n" + programme((0, 5), (1, 40)), rule) == []


def scaled(factor: float) -> str:
    """4.6 x 250, 5 um at 3.0 mL/min -> 3.0 x 150, 3 um at 2.13 mL/min."""
    rows = tuple((round(t * factor, 2), s) for t, s in SOURCE_ROWS)
    return (
        GRADIENT
        + "flow: 2.13 mL/min\nrun_length: 6 min\n"
        + programme(*rows)
        + FROM_GRADIENT
        + "flow: 3.0 mL/min\ncolumn: wide\nrun_length: 15 min\n"
        + programme(*SOURCE_ROWS)
        + WIDE
    )


def test_times_by_geometry_are_silent():
    """x 0.360 (common practice, no source; the formula of USP <621> from memory)."""
    assert findings(scaled(0.360), SEGMENTS) == []


@pytest.mark.parametrize("factor", [1.0, 0.45, 0.28])
def test_other_times_are_found(factor):
    (found,) = findings(scaled(factor), SEGMENTS)
    assert found.grade == "fault"
    assert "0.359 by geometry" in found.message
    assert found.at.path[:1] == ("programme",)


def test_another_programme_is_found():
    text = GRADIENT + programme((0, 5), (5, 40)) + FROM_GRADIENT + programme((0, 5), (5, 60))
    (found,) = findings(text, SEGMENTS)
    assert "another gradient" in found.message


def test_an_initial_hold_is_no_segment():
    text = GRADIENT + programme((0, 5), (0.37, 5), (5.37, 40)) + FROM_GRADIENT
    assert findings(text + programme((0, 5), (5, 40)) + "run_length: 7 min", SEGMENTS) == []


# Dwell ---------------------------------------------------------------------------------------


def test_a_small_difference_is_silent():
    """A tenth of the hold-up time of about 0.4 min is 0.04 min, or 0.06 mL at 1.5 mL/min."""
    near = SLOW.replace("1.08 mL", "0.56 mL")
    assert findings(GRADIENT + FROM_GRADIENT + "runs_on: [slow]\n" + near, DWELL) == []


def test_a_dwell_not_made_up_for_is_found():
    """(1.08 - 0.52) mL / 1.5 mL/min = 0.373 min (arithmetic)."""
    report = judged(GRADIENT + FROM_GRADIENT + "runs_on: [slow]\n" + SLOW, DWELL)
    (found,) = report.findings
    assert found.grade == "fault"
    assert found.limit.value == pytest.approx(0.373, abs=0.004)
    assert "0.37" in found.remedy
    assert report.not_checked == []


def test_the_hold_that_makes_up_for_it_is_silent():
    rows = programme((0, 5), (0.37, 5), (5.37, 40), (6.37, 40), (6.87, 5))
    assert findings(GRADIENT + rows + FROM_GRADIENT + "runs_on: [slow]\n" + SLOW, DWELL) == []


def test_a_negative_hold_names_the_mixer_or_the_delay():
    quick = "\n---\nkind: method\nx-name: source\n"
    here = "\n---\nkind: instrument\ndwell_volume: 1.08 mL\n"
    there = "\n---\nkind: instrument\nx-name: quick\n"
    text = GRADIENT + quick + "runs_on: [quick]\n" + there + here
    (found,) = findings(text, DWELL)
    assert "smaller mixer" in found.remedy
    (found,) = findings(text + "autosampler: {injects_after_start: true}\n", DWELL)
    assert "inject 0.37" in found.remedy


def test_the_delay_that_makes_up_for_it_is_silent():
    here = (
        "\n---\nkind: instrument\ndwell_volume: 1.08 mL\nautosampler: {injects_after_start: true}\n"
    )
    text = GRADIENT + "injection: {after_start: 0.37 min}" + FROM_GRADIENT + "runs_on: [quick]\n"
    assert findings(text + "\n---\nkind: instrument\nx-name: quick\n" + here, DWELL) == []
