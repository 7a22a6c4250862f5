"""Phases at the outlet of a method without column and instrument, by its settings alone.

The saturation pressure of CO2 is 64.3 bar at 25 degC (Span and Wagner 1996). The bubble pressure of
CO2 + 2-propanol with 0.83 CO2, about 25 % v/v at the pumps, is 101.45 bar at 59.9 degC (measured,
doi 10.1016/j.fluid.2010.03.004). That nothing downstream of a column adds more than 25 bar to the
set pressure is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report

RULE = "phase.two-phase-at-outlet"
SATURATION = 64.3  # bar, CO2 at 25 degC, Span and Wagner 1996
BUBBLE = 101.45  # bar, CO2 + 2-propanol, x(CO2) = 0.8297, 59.88 degC, 10.1016/j.fluid.2010.03.004


def alone(folder: Path, oven: float, outlet: float, share: float, more: str = "") -> Report:
    file = folder / "method.yaml"
    modifier = "" if share == 0 else "modifier: {liquid: 2-propanol, line: modifier-1}, "
    file.write_text(
        f"kind: method\noven_temperature: {oven} degC\noutlet_pressure: {outlet} bar\n"
        f"flow: 2 mL/min\nmobile_phase: {{{modifier}modifier_share: {share} % v/v}}\n"
        f"run_length: 5 min\n{more}",
        encoding="utf-8",
    )
    return check(file)


def grades(report: Report) -> list[str]:
    return [finding.grade for finding in report.findings if finding.rule == RULE]


SILENT = {
    "neat CO2 well above its saturation": (25, SATURATION + 5, 0),
    "above the highest two-phase pressure of any composition": (60, 150, 20),
    "neat CO2 above its critical temperature, where nothing condenses": (60, 75, 0),
}
FIRING = {
    "below the boundary by more than any bench adds": (60, BUBBLE - 25 - 12, 25, "fault"),
    "what the bench adds decides": (60, BUBBLE - 12, 25, "caution"),
    "the same of neat CO2 below its critical temperature": (25, SATURATION - 10, 0, "caution"),
}


@pytest.mark.parametrize("case", SILENT.values(), ids=SILENT.keys())
def test_silent(case: tuple[float, float, float], tmp_path: Path) -> None:
    report = alone(tmp_path, *case)
    assert grades(report) == []
    assert RULE in report.made[str(tmp_path / "method.yaml")]


@pytest.mark.parametrize("case", FIRING.values(), ids=FIRING.keys())
def test_firing(case: tuple[float, float, float, str], tmp_path: Path) -> None:
    *settings, grade = case
    assert grades(alone(tmp_path, *settings)) == [grade]


def test_any_composition_of_the_programme_counts(tmp_path: Path) -> None:
    rows = (
        "programme:\n  - {time: 0 min, modifier_share: 90 % v/v}\n"
        "  - {time: 3 min, modifier_share: 5 % v/v}\n"
    )
    [found] = [f for f in alone(tmp_path, 60, 65, 90, rows).findings if f.rule == RULE]
    assert found.grade == "fault"
    assert "2-propanol" in found.message
    steps = rows.replace("share: 5 % v/v}", "share: 85 % v/v, step: true}")
    assert grades(alone(tmp_path, 60, 95, 90, steps)) == []


@pytest.mark.parametrize("key", ["oven_temperature", "outlet_pressure"])
def test_without_a_setting_it_is_not_checked(key: str, tmp_path: Path) -> None:
    file = tmp_path / "method.yaml"
    alone(tmp_path, 60, 65, 15)
    text = file.read_text(encoding="utf-8")
    file.write_text("\n".join(r for r in text.splitlines() if key not in r), encoding="utf-8")
    report = check(file)
    assert grades(report) == []
    assert any(item.rule == RULE for item in report.not_checked)


def test_it_is_judged_in_part_and_never_passes_in_silence(tmp_path: Path) -> None:
    report = alone(tmp_path, 60, 150, 20)
    assert report.in_part == [str(tmp_path / "method.yaml")]
    assert report.only_in_part
    assert report.verdict == "run with care"
    assert report.exit_status() == 1
    assert report.exit_status("stop") == 0
    assert report.exit_status(excused=frozenset(report.not_checked)) == 0
