"""Compressible mobile phase at the outlet.

Pure CO2 (Span and Wagner 1996, computed by the reference library): 5.4 %/bar at 40 degC and 90 bar,
1.2 at 100, 0.40 at 120 and 0.20 at 150 bar; at 60 degC 1.8 at 120 and 0.62 at 150 bar.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "phase.near-critical-compressible"
TRAIN = """
---
kind: instrument
train:
  - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
  - {part: column}
  - {part: regulator, name: regulator, pressure_rating: 380 bar}
"""


def lab(oven: int, outlet: int, share: float, more: str = "") -> str:
    modifier = "modifier: methanol, " if share else "modifier: null, "
    return f"""
kind: method
oven_temperature: {oven} degC
outlet_pressure: {outlet} bar
flow: 1.0 mL/min
mobile_phase: {{{modifier}modifier_share: {share} % v/v}}
programme: []
pressure_limits: {{high: 340 bar, low: 80 bar}}
{more}{TRAIN}"""


SILENT = {
    "a fifth of modifier makes the mixture stiff": lab(40, 100, 20),
    "density is programmed on purpose": lab(40, 90, 0, "pressure_programmed: true"),
    "pure CO2 at 40 degC and 120 bar": lab(40, 120, 0),
    "pure CO2 at 40 degC and 150 bar": lab(40, 150, 0),
    "liquid at 25 degC": lab(25, 110, 5),
}


@pytest.mark.parametrize("yaml", SILENT.values(), ids=SILENT.keys())
def test_silent(yaml: str) -> None:
    assert findings(yaml, RULE) == []


@pytest.mark.parametrize(
    ("oven", "outlet", "per_bar"), [(40, 90, 5.4), (40, 100, 1.2), (60, 120, 1.8)]
)
def test_pure_carbon_dioxide_has_the_published_compressibility(
    oven: int, outlet: int, per_bar: float
) -> None:
    [found] = findings(lab(oven, outlet, 0), RULE)
    assert found.grade == "caution"
    assert found.found is not None
    assert found.found.value == pytest.approx(per_bar, rel=0.08)


def test_three_per_cent_per_degree_is_enough() -> None:
    """Pure CO2 at 60 degC and 130 bar: 1.2 %/bar; at 45 degC and 115 bar the warmth counts too."""
    [found] = findings(lab(50, 110, 2), RULE)
    assert "1 K by" in found.message


def test_remedy_moves_away() -> None:
    [found] = findings(lab(40, 90, 0), RULE)
    assert found.remedy.startswith(("set the outlet pressure to", "set the oven to"))
