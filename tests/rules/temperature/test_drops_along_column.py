"""Cooling along the column.

Glenne et al., Anal. Chem. 2020 (abstract seen): 0.8 K along a conventional column and 6.5 K along a
small-particle one, both in a real oven; the adiabatic bound lies at or above.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "temperature.drops-along-column"


def lab(
    particle: float, share: float, oven: float = 40, flow: float = 1.8, outlet: int = 150
) -> str:
    return f"""
kind: method
oven_temperature: {oven} degC
outlet_pressure: {outlet} bar
flow: {flow} mL/min
mobile_phase: {{modifier: methanol, modifier_share: {share} % v/v}}
programme: []
pressure_limits: {{high: 690 bar, low: 100 bar}}
---
kind: column
particle_size: {particle} um
pressure_rating: 690 bar
"""


def test_silent_for_a_conventional_column() -> None:
    assert findings(lab(5, 3), RULE) == []


def test_silent_for_rich_mobile_phase_which_does_not_cool() -> None:
    assert findings(lab(1.7, 60, flow=0.6), RULE) == []


def test_silent_for_a_cold_oven() -> None:
    assert findings(lab(1.7, 5, oven=15, flow=1.2), RULE) == []


def test_a_lean_method_on_small_particles_cools() -> None:
    [found] = findings(lab(1.7, 3), RULE)
    assert found.grade == "caution"
    assert "cools by up to" in found.message
    assert "denser" in found.message
    assert found.found is not None
    assert found.found.value == pytest.approx(6.5, rel=0.3)
    assert found.remedy.startswith(("set the outlet pressure to", "set the oven to"))


def test_it_is_never_called_heating() -> None:
    [found] = findings(lab(1.7, 3), RULE)
    assert "heat" not in found.message.replace("No heat from the oven", "")
    assert found.found is not None
    assert found.found.value > 0
