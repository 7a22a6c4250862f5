"""The cylinder that is not empty: flame-retardant stereoisomers overnight.

12.5 kg stand on the scale, 3.46 kg are wanted, and the liquid still ends at dawn. Figures are
worked from the densities of CO2 (Span and Wagner 1996, CoolProp 8.0.0): 194.2 kg/m3 of saturated
vapour at 20 degC, 965 kg/m3 in a pump head of 10 degC. They were made with a metering density of
their own, so masses are compared within 2 %.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.judging.finding import Finding

HERE = Path(__file__).parent / "scenario_06" / "sequences"
RUNS_OUT = "supply.cylinder-runs-out"


@cache
def _report(name: str) -> Report:
    report = check(HERE / f"{name}.yaml")
    assert not report.failed, report.failed[0].trace
    assert not report.unusable
    return report


def _all(report: Report) -> list[Finding]:
    found = list(report.findings)
    for finding in found:
        found.extend(finding.because)
    return found


def _one(report: Report, rule: str) -> Finding:
    [finding] = [finding for finding in _all(report) if finding.rule == rule]
    return finding


def test_masses_are_those_of_the_scenario() -> None:
    """40.2 g per injection, 0.086 kg to equilibrate, 3.46 kg in all; 0.77 g/mL would give 32 g."""
    [case] = _report("overnight").batches
    batch = case.batch
    assert batch.injections == 84
    injecting = next(line for line in batch.lines if line.injects)
    assert injecting.co2_per_injection == pytest.approx(40.2e-3, rel=0.02)
    assert batch.equilibration_co2 == pytest.approx(0.086, rel=0.02)
    assert batch.co2_demand == pytest.approx(3.46, rel=0.02)


def test_liquid_is_expected_to_end_during_injection_66_to_69() -> None:
    finding = _one(_report("overnight"), RUNS_OUT)
    assert finding.grade == "fault"
    assert not finding.possible
    assert "expected to end during injection 66-69 of 84" in finding.message
    assert finding.when is not None
    assert (finding.when.injection, finding.when.last_injection) == (66, 69)


def test_not_before_about_55_on_the_tolerances() -> None:
    finding = _one(_report("overnight"), RUNS_OUT)
    match = re.search(r"not before injection (\d+)", finding.message)
    assert match is not None
    assert int(match[1]) == pytest.approx(55, abs=2)


def test_one_kelvin_in_the_store_is_worth_ten_injections() -> None:
    assert "+/-10 injections" in _one(_report("overnight"), RUNS_OUT).message


def test_short_by_two_thirds_of_a_kilogram() -> None:
    """3.46 kg wanted, 2.79 kg usable: short by 0.67 kg; both masses within 2 %."""
    finding = _one(_report("overnight"), RUNS_OUT)
    assert finding.found is not None and finding.limit is not None
    assert finding.limit.value == pytest.approx(2.79, abs=0.01)
    assert finding.found.value - finding.limit.value == pytest.approx(0.67, abs=0.04)
    match = re.search(r"short by ([0-9.]+) kg", finding.message)
    assert match is not None
    assert float(match[1]) == pytest.approx(0.67, abs=0.04)


def test_vapour_left_behind_is_told_in_words() -> None:
    assert "9.71 kg stays behind as vapour" in _one(_report("overnight"), RUNS_OUT).message


def test_the_clock_is_told() -> None:
    """Half an hour and 65 cycles of 14 min after 16:00 are 07:40; 69 cycles end at 08:36."""
    assert "(2026-11-25 07:40 to 08:36)" in _one(_report("overnight"), RUNS_OUT).message


def test_change_of_cylinder_at_the_early_end() -> None:
    """A full cylinder gives 37.5 - 9.71 = 27.8 kg, and the change comes before injection 56."""
    remedy = _one(_report("overnight"), RUNS_OUT).remedy
    match = re.search(r"before the start, or after injection (\d+) at the latest", remedy)
    assert match is not None
    assert int(match[1]) == pytest.approx(55, abs=2)
    assert "37.5 kg, of which 27.8 kg can be drawn" in remedy


def test_what_else_must_be_raised() -> None:
    report = _report("overnight")
    assert report.verdict == "do not run"
    assert _one(report, "safety.unattended-without-trips").grade == "caution"
    assert "stop at low pressure" in _one(report, "safety.unattended-without-trips").message
    assert _one(report, "pressure.low-limit-missing")


def test_what_must_not_be_raised() -> None:
    """The store is outside, behind its declared excess-flow valve."""
    families = {finding.rule for finding in _all(_report("overnight"))}
    assert not families & {
        "safety.room-co2-release",
        "safety.room-co2-steady",
        "safety.no-co2-monitor",
        "supply.no-liquid-in-cylinder",
        "supply.pump-inlet-flashes",
        "supply.chiller-overloaded",
    }
    loud = [finding for finding in _report("overnight").findings if finding.grade == "fault"]
    assert [finding.rule for finding in loud] == [RUNS_OUT]


def test_head_two_kelvin_colder_keeps_the_verdict() -> None:
    """8 degC instead of 10 degC changes the mass of CO2 by 0.6 to 1 %."""
    finding = _one(_report("overnight-8-degrees"), RUNS_OUT)
    assert finding.grade == "fault"
    assert finding.when is not None and finding.when.injection is not None
    assert finding.when.injection == pytest.approx(66, abs=1)


def test_low_pressure_stop_quiets_the_night() -> None:
    rules = {finding.rule for finding in _all(_report("overnight-8-degrees"))}
    assert "safety.unattended-without-trips" not in rules


@pytest.mark.parametrize("twin", ["overnight-bulk", "overnight-vapour"])
def test_twin_with_bulk_or_a_condensing_pump_raises_nothing(twin: str) -> None:
    """5.8 kg stay behind at 45 bar: 6.7 kg are left for 3.5."""
    report = _report(twin)
    families = ("supply.", "safety.")
    assert [f.rule for f in _all(report) if f.rule.startswith(families)] == []
    assert [item for item in report.not_checked if item.rule.startswith(families)] == []
