"""Two phases in the detector cell. Boundary of CO2 + methanol at 70 degC: about 119 bar (+-6 bar, from memory)."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "phase.two-phase-in-cell"


def lab(cell: str, outlet: int = 100, detectors: str = "[{type: UV, cell: UV cell}]") -> str:
    return f"""
kind: method
oven_temperature: 35 degC
outlet_pressure: {outlet} bar
detectors: {detectors}
pressure_limits: {{high: 340 bar, low: 105 bar}}
programme: [{{time: 0 min, modifier_share: 20 % v/v}}]
---
kind: instrument
train:
  - {{part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}}
  - {{part: column}}
{cell}
"""


BEFORE = """  - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar, temperature: 70 degC}
  - {part: tube, name: last, length: 0.1 m, bore: 0.25 mm, temperature: 35 degC}
  - {part: regulator, name: regulator, pressure_rating: 380 bar, temperature: 35 degC}"""
BEHIND = """  - {part: regulator, name: regulator, pressure_rating: 380 bar}
  - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar, temperature: 70 degC}"""
SILENT = {
    "the detector is a mass spectrometer only": lab(BEFORE, detectors="[{type: MS}]"),
    "the cell is bypassed": lab(BEFORE.replace("70 degC}", "70 degC, bypassed: true}")),
    "the cell lies downstream of the regulator": lab(BEHIND),
    "the pressure is high enough for the warm cell": lab(BEFORE, 150),
    "the cell is as warm as the oven": lab(BEFORE.replace("70 degC", "35 degC")),
}


@pytest.mark.parametrize("yaml", SILENT.values(), ids=SILENT.keys())
def test_silent(yaml: str) -> None:
    assert findings(yaml, RULE) == []


def test_a_warm_cell_parts_what_left_the_column_as_one_phase() -> None:
    [found] = findings(lab(BEFORE), RULE, "phase.two-phase-at-outlet")
    assert found.rule == RULE
    assert found.grade == "fault"
    assert "in the UV cell" in found.message
    assert "70 degC" in found.message
    assert found.limit is not None
    assert found.limit.value == pytest.approx(119, abs=6)
    assert found.remedy.startswith("set the outlet pressure to")
