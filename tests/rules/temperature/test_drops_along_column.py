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


@pytest.mark.filterwarnings("error")
def test_what_boils_on_the_way_is_no_colder_than_boiling_carbon_dioxide() -> None:
    """At 40 bar carbon dioxide boils at 5.3 degC (Span & Wagner 1996, table, from memory)."""
    method = lab(3, 0, oven=32, flow=2, outlet=80).replace(
        "programme: []",
        "programme:\n"
        "  - {time: 0 min, modifier_share: 0 % v/v, outlet_pressure: 40 bar}\n"
        "  - {time: 8 min, modifier_share: 2 % v/v, outlet_pressure: 80 bar}",
    )
    [found] = findings(method, RULE)
    assert found.found is not None
    assert 5.0 < found.found.value < 32.0 - 5.3
    denser = float(found.message.partition("about ")[2].partition(" %")[0])
    # saturated liquid at 5 degC has 896 kg/m3 (the same table); no gas ahead of it is below 80
    assert 0.0 < denser < 100.0 * (896.0 / 80.0 - 1.0)
