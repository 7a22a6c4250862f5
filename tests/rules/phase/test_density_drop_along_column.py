"""Fall of density along the column.

Glenne et al., Anal. Chem. 2020 (abstract seen): 3 % along a conventional column, 20 % along a
small-particle one. Worked example 3.0 x 150 mm, 1.7 um, 1.8 mL/min, 3 % methanol, 40 degC, 150 bar:
949 to 783 kg/m3 with ideal mixing, (949 - 783) / 949 = 17.5 %: the fall is told against the inlet.
"""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings, judged

RULE = "phase.density-drop-along-column"


def lab(particle: float, share: float, more: str = "", outlet: int = 150, oven: int = 40) -> str:
    return f"""
kind: method
oven_temperature: {oven} degC
outlet_pressure: {outlet} bar
flow: 1.8 mL/min
mobile_phase: {{modifier: methanol, modifier_share: {share} % v/v}}
programme: []
pressure_limits: {{high: 540 bar, low: 100 bar}}
{more}
---
kind: column
particle_size: {particle} um
pressure_rating: 600 bar
"""


def test_silent_for_a_conventional_column() -> None:
    assert findings(lab(5, 3), RULE) == []


def test_silent_for_a_proved_small_particle_column_with_a_fifth_of_modifier() -> None:
    hot = {"outlet": 110, "oven": 60}
    proved = "suitability: {at_rhythm: true}"
    assert findings(lab(1.7, 20, proved, **hot), RULE) == []
    assert len(findings(lab(1.7, 20, "", **hot), RULE)) == 1


def test_a_lean_method_on_small_particles() -> None:
    [found] = findings(lab(1.7, 3), RULE)
    assert found.grade == "caution"
    assert found.found is not None
    assert found.found.value == pytest.approx(17.5, abs=3)
    ends = re.search(r"from (\d+) to (\d+) kg/m3", found.message)
    assert ends is not None
    inlet, outlet = float(ends[1]), float(ends[2])
    assert found.found.value == pytest.approx(100 * (inlet - outlet) / inlet, abs=0.2)
    assert "mostly cancel" in found.message
    assert "kg/m3" in found.message


def test_conventional_column_falls_by_three_per_cent() -> None:
    from methodlint.rehearsal.run.along_column import column_ends

    [run] = [case.run for case in judged(lab(5, 3), RULE).runs][:1]
    assert float(column_ends(run).fall.max()) == pytest.approx(0.03, abs=0.01)


def test_remedy_was_tried() -> None:
    [found] = findings(lab(1.7, 3), RULE)
    assert found.remedy.startswith("set the outlet pressure to")


def test_one_lean_method_on_small_particles_gives_one_finding() -> None:
    found = findings(
        lab(1.7, 3), RULE, "temperature.drops-along-column", "phase.near-critical-compressible"
    )
    assert len(found) == 1
    assert found[0].because
