"""Losses behind the column.

Worked example at 4 mL/min, 5 % methanol, 40 degC: 61 bar per metre in 0.12 mm, 12 in 0.17 mm (Blasius).
"""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "pressure.outlet-far-above-set"


def lab(flow: float, length: float, bore: float, diameter: float = 4.6) -> str:
    return f"""
kind: instrument
train:
  - {{part: injector, name: injection valve, volume: 10 uL, pressure_rating: 600 bar}}
  - {{part: column}}
  - {{part: tube, name: last tube, length: {length} m, bore: {bore} mm}}
  - {{part: regulator, name: regulator, pressure_rating: 400 bar}}
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

    yaml = lab(4.0, 0.5, 0.17)
    run = judged(yaml, RULE).runs[0].run
    assert float(run.reynolds[:, run.slices_of(run.train.index("last tube"))].max()) > 4000
    assert findings(yaml, RULE) == []


def test_a_narrow_tube_is_named_with_its_loss_and_reynolds_number() -> None:
    [found] = findings(lab(4.0, 0.9, 0.12), RULE)
    assert found.grade == "caution"
    assert "last tube 5" in found.message
    assert "Re " in found.message
    assert found.at.path == ("train", 2)


def test_the_next_bore_cures_it() -> None:
    [found] = findings(lab(3.0, 0.6, 0.12), RULE)
    assert found.remedy.split("; or ")[0] == "take a bore of 0.17 mm for the tube 'last tube'"


def test_no_bore_is_proposed_that_broadens_the_peaks() -> None:
    """1 m of 0.17 mm holds 23 uL, beyond 3 % of the 0.32 mL of a 2.1 mm column."""
    [found] = findings(lab(1.6, 2.0, 0.12, diameter=2.1), RULE)
    assert "bore" not in found.remedy
