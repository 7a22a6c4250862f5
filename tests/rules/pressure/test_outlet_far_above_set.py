"""Losses downstream of the column.

Worked example at 4 mL/min, 5 % methanol, 40 degC: 6.4e-5 kg/s, 0.075 mPa s and 800 kg/m3 lose 18.5 to
21 bar per metre in 0.15 mm and 1.7 in 0.25 mm (Blasius).
"""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings

RULE = "pressure.outlet-far-above-set"


def lab(flow: float, length: float, bore: float, diameter: float = 4.6) -> str:
    return f"""
kind: instrument
train:
  - {{part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}}
  - {{part: column}}
  - {{part: tube, name: last tube, length: {length} m, bore: {bore} mm}}
  - {{part: regulator, name: regulator, pressure_rating: 380 bar}}
---
kind: column
inner_diameter: {diameter} mm
---
kind: method
flow: {flow} mL/min
programme: [{{time: 0 min, modifier_share: 5 % v/v}}]
"""


def test_silent_for_turbulence_by_itself() -> None:
    from tests.rules.harness import judged

    yaml = lab(4.0, 0.4, 0.15)
    run = judged(yaml, RULE).runs[0].run
    assert float(run.reynolds[:, run.slices_of(run.train.index("last tube"))].max()) > 4000
    assert findings(yaml, RULE) == []


def test_a_narrow_tube_is_named_with_its_loss_and_reynolds_number() -> None:
    [found] = findings(lab(4.0, 0.9, 0.15), RULE)
    assert found.grade == "caution"
    said = re.search(r"last tube ([\d.]+) bar \(Re (\d+)\)", found.message)
    assert said is not None
    assert float(said[1]) == pytest.approx(0.9 * 20.0, rel=0.15)
    assert float(said[2]) == pytest.approx(7200, rel=0.15)
    assert found.at.path == ("train", 2)


def test_the_next_bore_cures_it() -> None:
    [found] = findings(lab(4.0, 0.9, 0.15), RULE)
    assert found.remedy.split("; or ")[0] == "replace the tube 'last tube' by one of 0.25 mm bore"


def test_no_bore_is_proposed_that_broadens_the_peaks() -> None:
    """4 m of 0.25 mm hold 196 uL, beyond 3 % of the 0.34 mL of a 2.1 mm column."""
    [found] = findings(lab(1.6, 4.0, 0.15, diameter=2.1), RULE)
    assert "bore" not in found.remedy
