"""Two phases at the column outlet.

Boundary figures: 105 bar is the highest two-phase pressure of CO2 + 2-propanol at 60 degC by a
cubic equation with a published parameter (from memory, unfitted; +-5 bar); 64.3 bar is the
saturation of CO2 at 25 degC (Span and Wagner 1996).
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "phase.two-phase-at-outlet"


def method(oven: float, outlet: float, first: float, last: float, liquid: str = "methanol") -> str:
    return f"""
kind: method
oven_temperature: {oven} degC
outlet_pressure: {outlet} bar
flow: 2.0 mL/min
mobile_phase: {{modifier: {{liquid: {liquid}, line: modifier-1}}}}
programme:
  - {{time: 0 min, modifier_share: {first} % v/v}}
  - {{time: 8 min, modifier_share: {last} % v/v}}
run_length: 10 min
pressure_limits: {{high: 340 bar, low: 100 bar}}
---
kind: column
inner_diameter: 4.6 mm
"""


SILENT = {
    "liquid CO2 with 30 % methanol at 25 degC and 110 bar": method(25, 110, 30, 30),
    "90 % methanol at 25 degC": method(25, 110, 60, 90).replace("2.0 mL/min", "0.8 mL/min"),
    "below the critical temperature of CO2, by itself no mistake": method(20, 100, 5, 40),
    "above the highest boundary at every composition": method(60, 150, 5, 25, "2-propanol"),
    "so little modifier that nothing parts": method(60, 100, 0.3, 0.5),
    "two phases downstream of the regulator only": method(40, 150, 10, 10),
}


@pytest.mark.parametrize("yaml", SILENT.values(), ids=SILENT.keys())
def test_silent(yaml: str) -> None:
    assert findings(yaml, RULE) == []


def test_hot_and_low_is_a_fault_with_window_place_and_boundary() -> None:
    [found] = findings(method(60, 90, 5, 25, "2-propanol"), RULE)
    assert found.grade == "fault"
    assert "has two phases at the column outlet" in found.message
    assert "2-propanol" in found.message
    assert "perhaps from 0 min" in found.message
    assert found.limit is not None
    assert found.limit.value == pytest.approx(105, abs=5)
    assert found.when is not None
    assert found.when.start == pytest.approx(0.0, abs=90.0)
    assert found.when.end is not None
    assert found.when.end > 8 * 60


def test_inside_the_band_of_the_model_is_a_caution() -> None:
    [found] = findings(method(60, 105, 20, 20, "2-propanol"), RULE)
    assert found.grade == "caution"
    assert found.possible
    assert "may have two phases" in found.message


def test_a_place_behind_the_column_is_named() -> None:
    """A long narrow tube keeps the column in one phase and lets the tube part."""
    yaml = (
        method(60, 85, 20, 20)
        + """---
kind: instrument
train:
  - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
  - {part: column}
  - {part: tube, name: long tube, length: 4 m, bore: 0.15 mm}
  - {part: regulator, name: regulator, pressure_rating: 380 bar}
"""
    )
    [found] = findings(yaml, RULE)
    assert "long tube" in found.message


def test_the_remedy_is_one_that_was_tried() -> None:
    [found] = findings(method(60, 90, 5, 25, "2-propanol"), RULE)
    assert found.remedy.startswith("set the outlet pressure to")
    assert "100 bar" not in found.remedy


def test_an_outlet_pressure_given_by_the_programme_is_raised_there() -> None:
    yaml = """
kind: method
oven_temperature: 60 degC
outlet_pressure: null
programme:
  - {time: 0 min, modifier_share: 20 % v/v, outlet_pressure: 90 bar}
pressure_limits: {high: 340 bar, low: 100 bar}
"""
    [found] = findings(yaml, RULE)
    assert found.at.path == ("programme", 0, "outlet_pressure")
    assert found.remedy.startswith("set the outlet pressure to")


def test_one_cause_gives_one_finding() -> None:
    report = judged(
        method(60, 90, 5, 25, "2-propanol"),
        RULE,
        "phase.two-phase-in-cell",
        "phase.near-critical-compressible",
        "phase.density-drop-along-column",
        "pressure.margin-to-boundary-thin",
        "temperature.drops-along-column",
    )
    assert [found.rule for found in report.findings] == [RULE]
    beneath = {child.rule for child in report.findings[0].because}
    assert "phase.two-phase-in-cell" in beneath
