"""The false-alarm trap: dye intermediates at 25 degC, from 5 to 90 % methanol.

Figures by the worked example (superficial flow resistance 1000): at the pumps 174 bar with 5 %, 242
with 40 %, 236 with 60 % at 1.0 mL/min, 278 with 90 % at 0.8 mL/min; without the steps of the flow
420-440 bar with 90 %. Saturation of CO2 at 25 degC 64.3 bar (Span and Wagner 1996).

The flow is raised again only after 5 % has filled the column; a twin raises it at once.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report

METHODS = Path(__file__).parent / "scenario_02" / "methods"


@cache
def report(name: str) -> Report:
    return check(METHODS / f"{name}.yaml")


def loud(name: str) -> list[str]:
    return [finding.rule for finding in report(name).findings if finding.grade != "note"]


def test_the_only_word_on_the_temperature_is_a_note() -> None:
    found = [f for f in report("with-flow-steps").findings if f.rule.startswith("temperature.")]
    assert [(f.rule, f.grade) for f in found] == [("temperature.subcritical", "note")]
    assert "64.3 bar" in found[0].message
    assert "supercritical" not in found[0].message


def test_nothing_above_a_note_is_raised() -> None:
    assert report("with-flow-steps").failed == []
    assert loud("with-flow-steps") == []
    assert report("with-flow-steps").verdict == "clear to run"


@pytest.mark.parametrize("family", ["phase", "pressure"])
def test_must_not_say_anything_of_phases_or_ratings(family: str) -> None:
    rules = {finding.rule for finding in report("with-flow-steps").findings}
    assert not {rule for rule in rules if rule.startswith(f"{family}.")}


def test_settling_is_long_enough() -> None:
    rules = {finding.rule for finding in report("with-flow-steps").findings}
    assert "gradient.reequilibration-short" not in rules


@pytest.mark.parametrize(
    ("minute", "pump"), [(6.0, 236), (9.0, 278), (16.9, 174)], ids=["60 %", "90 %", "5 %"]
)
def test_figures_at_the_pumps(minute: float, pump: float) -> None:
    run = report("with-flow-steps").runs[0].run
    found = float(np.interp(minute * 60.0, run.time, run.pump_pressure)) / 1e5
    assert found - 110.0 == pytest.approx(pump - 110.0, rel=0.20)


def test_one_liquid_phase_all_through() -> None:
    run = report("with-flow-steps").runs[0].run
    assert float(run.least_margin.min()) > 30e5


@pytest.mark.parametrize("twin", ["without-flow-steps", "flow-raised-at-once"])
def test_90_per_cent_at_full_flow_is_beyond_the_rating(twin: str) -> None:
    assert loud(twin) == ["pressure.column-rating-exceeded"]
    [found] = [f for f in report(twin).findings if f.rule == "pressure.column-rating-exceeded"]
    assert found.grade == "stop"
    assert not found.possible, "beyond 400 bar in the centre, not only in the band"
    assert found.found is not None
    assert found.found.value - 110.0 == pytest.approx(430.0 - 110.0, rel=0.20)
    assert "90 % modifier" in found.message
    assert report(twin).verdict == "do not run"


def test_the_twin_that_raises_the_flow_at_once_is_told_which_row() -> None:
    [found] = [f for f in report("flow-raised-at-once").findings if f.grade == "stop"]
    assert "at 9.1 min" in found.remedy
    assert found.remedy.startswith("lower the flow in the programme")
    assert found.when is not None
    assert found.when.start is not None
    assert found.when.start > 9 * 60
