"""Two phases at the outlet: eucalyptus terpenoid alcohols, hot and low.

Boundary of CO2 + 2-propanol: 105 bar at 60 degC, 75 bar at 35 degC by a cubic equation with a
published parameter (from memory), +-5 bar. At 90 bar two phases for an overall share of CO2 from 0.61
to 0.975; the programme runs from 0.970 to 0.836, so the first minute lies inside the band.
"""

from __future__ import annotations

import shutil
from functools import cache
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.judging.finding import Finding

LAB = Path(__file__).parent / "scenario_03"
RULE = "phase.two-phase-at-outlet"
CONSEQUENCES = {
    "phase.near-critical-compressible",
    "phase.density-drop-along-column",
    "phase.two-phase-in-cell",
    "pressure.margin-to-boundary-thin",
    "temperature.drops-along-column",
}


@cache
def report() -> Report:
    return check(LAB / "methods" / "terpenoid-alcohols.yaml")


def two_phases() -> Finding:
    [found] = [finding for finding in report().findings if finding.rule == RULE]
    return found


def changed(folder: Path, oven: int, outlet: int, low: int) -> Report:
    """The same method with another oven, outlet pressure and low limit."""
    lab = shutil.copytree(LAB, folder / "lab")
    method = lab / "methods" / "terpenoid-alcohols.yaml"
    text = method.read_text(encoding="utf-8")
    text = text.replace("oven_temperature: 60 degC", f"oven_temperature: {oven} degC")
    text = text.replace("outlet_pressure: 90 bar", f"outlet_pressure: {outlet} bar")
    text = text.replace("low: 105 bar", f"low: {low} bar")
    method.write_text(text, encoding="utf-8")
    return check(method)


def rules_of(result: Report) -> set[str]:
    return {f.rule for f in result.findings if f.grade != "note"}


def test_two_phases_at_the_outlet_are_a_fault() -> None:
    found = two_phases()
    assert found.grade == "fault"
    assert report().verdict == "do not run"
    assert found.limit is not None
    assert found.limit.value == pytest.approx(105.0, abs=5.0)
    assert "60 degC" in found.message
    assert "2-propanol" in found.message


def test_the_start_of_the_window_is_told_as_uncertain() -> None:
    found = two_phases()
    assert "perhaps from 0 min: the start is inside the band" in found.message
    assert found.when is not None
    assert found.when.start == 0.0
    assert found.when.end is not None
    assert found.when.end > 8 * 60


def test_one_cause_is_one_finding() -> None:
    assert rules_of(report()) == {RULE}
    beneath = {child.rule for child in two_phases().because}
    assert "phase.two-phase-in-cell" in beneath
    assert "phase.near-critical-compressible" in beneath
    assert beneath <= CONSEQUENCES


def test_there_is_no_finding_on_the_temperature_as_such() -> None:
    assert not [f for f in report().findings if f.rule.startswith("temperature.")]


def test_the_remedy_is_150_bar_or_35_degrees_with_110_bar() -> None:
    remedy = two_phases().remedy
    first, second = remedy.split("; or ")
    assert first.startswith("set the outlet pressure to 150 bar")
    assert second.startswith("set the oven to 35 degC with an outlet pressure of 110 bar")
    assert "that leaves" not in remedy


def test_150_bar_leaves_nothing(tmp_path: Path) -> None:
    assert rules_of(changed(tmp_path, 60, 150, 170)) == set()


def test_35_degrees_with_110_bar_leave_nothing(tmp_path: Path) -> None:
    result = changed(tmp_path, 35, 110, 125)
    assert rules_of(result) == set()
    margin = float(result.runs[0].run.outlet_margin.min()) / 1e5
    assert margin == pytest.approx(110.0 - 75.0, abs=5.0)


def test_100_bar_still_parts(tmp_path: Path) -> None:
    assert RULE in rules_of(changed(tmp_path, 60, 100, 120))


def test_120_bar_is_one_phase_but_no_more_than_that(tmp_path: Path) -> None:
    """Compressibility at the leanest point is 1.2-1.4 %/bar by the worked example, near its limit."""
    result = changed(tmp_path, 60, 120, 135)
    assert RULE not in rules_of(result)
    left = rules_of(result)
    assert left, "120 bar is not better than it is"
    assert left <= CONSEQUENCES
    soft = float(result.runs[0].run.outlet_compressibility.max()) * 1e7
    assert 0.9 < soft < 1.6
