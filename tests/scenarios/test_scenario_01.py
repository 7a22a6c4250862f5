"""A clean isocratic chiral run: triazole fungicide enantiomers in wine, 34 injections.

Figures by the worked example (superficial flow resistance 1000, ideal volume mixing, pump head at
10 degC, so bands of a fifth of either drop and 12 % of the density apply): drop 68 bar, density
789 -> 854 kg/m3; CO2 1.61 g/min, 0.22 kg in 136 min. Column outlet 131.5 to 131.8 bar by hand:
3.2e-5 kg/s through 0.3 m of 0.15 mm lose 1.3 bar by Hagen and Poiseuille with 0.148 mPa s and
876 kg/m3, 1.6 bar by Blasius with the thinner 0.085 mPa s of logarithmic mixing, and 0.3 m of
0.25 mm another 0.1 to 0.2 bar. Hold-up volume 0.459 mL from
0.65 x pi/4 x (3.0 mm)^2 x 100 mm, so 2 uL are 0.44 % of it.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.rehearsal.run.rehearsal import Rehearsal

SEQUENCE = Path(__file__).parent / "scenario_01" / "sequences" / "day-batch.yaml"


@cache
def report() -> Report:
    return check(SEQUENCE)


def run() -> Rehearsal:
    return report().runs[0].run


def test_nothing_above_a_note_is_raised() -> None:
    assert report().failed == []
    assert [(f.rule, f.message) for f in report().findings if f.grade != "note"] == []


def test_it_is_clear_to_run_and_was_looked_at() -> None:
    assert report().verdict == "clear to run"
    assert report().exit_status() == 0
    assert [(item.rule, item.missing) for item in report().unchecked_stops] == []
    assert report().checked > 20


@pytest.mark.parametrize(
    "rule",
    [
        "injection.diluent-too-strong",
        "injection.overloads-column-volume",
        "waste.bpr-freezes",
        "safety.room-co2-steady",
        "safety.room-co2-release",
        "detector.rate-too-slow",
        "phase.two-phase-at-outlet",
        "phase.near-critical-compressible",
        "pressure.cutoff-unsound",
        "pressure.low-limit-missing",
    ],
)
def test_must_not_say(rule: str) -> None:
    assert rule not in {finding.rule for finding in report().findings}


def test_there_are_34_injections() -> None:
    lines = report().batches[0].batch.lines
    assert max(line.last_injection for line in lines) == 34


def test_figures_of_the_run() -> None:
    found = run()
    assert found.column_outlet_pressure[0] / 1e5 == pytest.approx(131.65, abs=0.3)
    drop = (found.column_inlet_pressure[0] - found.column_outlet_pressure[0]) / 1e5
    # Both carry a band of a fifth; logarithmic mixing makes the example's viscosity too low.
    assert abs(drop - 68.0) < 0.20 * (drop + 68.0)
    bed = found.slices_of(found.plan.analytical_column)
    assert found.density[0, bed.stop - 1] == pytest.approx(789.0, rel=0.12)
    assert found.density[0, bed.start] == pytest.approx(854.0, rel=0.12)
    assert found.hold_up_volume * 1e6 == pytest.approx(0.459, abs=0.001)


def test_carbon_dioxide_of_34_runs_of_four_minutes() -> None:
    per_minute = float(run().co2_mass_flow[0]) * 60.0
    assert per_minute == pytest.approx(1.61e-3, rel=0.02)
    assert 34 * 4 * per_minute == pytest.approx(0.22, abs=0.005)
