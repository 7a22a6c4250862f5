"""Detector cell against its rating.

Worked example: 150 bar at the regulator, 2.6 m of 0.15 mm, 4 mL/min, 5 % methanol at 40 degC.
With 6.4e-5 kg/s, 0.075 mPa s and 800 kg/m3: Re = 4 m/(pi d eta) = 7200; Blasius gives 18.5 to 21
bar/m (48-55 bar lost), Hagen and Poiseuille 12 bar in all.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "pressure.cell-rating-exceeded"


def lab(rating: str, bore: float = 0.15, outlet: int = 150, order: str = "cell first") -> str:
    cell = f"  - {{part: cell, name: UV cell, volume: 11 uL, pressure_rating: {rating}}}\n"
    tube = f"  - {{part: tube, name: last, length: 2.6 m, bore: {bore} mm}}\n"
    end = "  - {part: regulator, name: regulator, pressure_rating: 380 bar}\n"
    behind = cell + tube + end if order == "cell first" else tube + end + cell
    return f"""
kind: instrument
train:
  - {{part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}}
  - {{part: column}}
{behind}---
kind: column
inner_diameter: 4.6 mm
---
kind: method
flow: 4.0 mL/min
outlet_pressure: {outlet} bar
programme: [{{time: 0 min, modifier_share: 5 % v/v}}]
"""


def test_silent_where_the_cell_lies_behind_the_regulator() -> None:
    assert findings(lab("20 bar", order="cell behind"), RULE) == []


def test_silent_with_a_wider_tube() -> None:
    assert findings(lab("200 bar", bore=0.25, outlet=130), RULE) == []


def test_silent_without_a_cell() -> None:
    yaml = "kind: instrument\ntrain:\n  - {part: column}\n  - {part: regulator}\n"
    assert judged(yaml, RULE).not_checked == []


def test_turbulent_loss_lifts_the_cell_above_its_rating() -> None:
    [found] = findings(lab("190 bar"), RULE)
    assert found.grade == "stop"
    assert found.found is not None
    assert found.found.value - 150 == pytest.approx(52, rel=0.2)
    assert "lost downstream of the cell" in found.message
    assert "with a plugged regulator it sees 340 bar" in found.message


def test_the_loss_behind_is_a_consequence_and_no_second_finding() -> None:
    found = findings(lab("190 bar"), RULE, "pressure.outlet-far-above-set")
    assert [one.rule for one in found] == [RULE]


def test_the_remedy_was_tried() -> None:
    [found] = findings(lab("190 bar"), RULE)
    tube, outlet = found.remedy.split("; or ")
    assert tube.startswith("replace the tube '") and tube.endswith("by one of 0.25 mm bore")
    assert outlet.startswith("set the outlet pressure to")


def test_a_cell_without_a_rating_is_not_checked() -> None:
    yaml = lab("190 bar").replace(", pressure_rating: 190 bar", "")
    report = judged(yaml, RULE)
    assert [item.missing for item in report.not_checked] == [
        ("instrument.train[2].pressure_rating",)
    ]
