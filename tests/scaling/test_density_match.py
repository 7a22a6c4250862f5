"""The regulator setting that equalises column-mean densities, against worked figures.

The figures (4.6 x 250 mm, 5 um at 3.0 mL/min against 3.0 x 150 mm, 3 um at 2.13 mL/min, 5 %
methanol, 40 degC, regulator 120 bar, pump head 10 degC) were computed independently of this
package with ideal mixing of volumes, logarithmic mixing of viscosities and a flow resistance of
1000: 770 and 796 kg/m3, +3.5 %; 105 bar gives 770 again. They hold within 2 % of density and 20 % of
a pressure drop (common practice, no source), hence the tolerances.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from methodlint.rehearsal.plan.run_plan import plan_run
from methodlint.rehearsal.plan.set_points import complete_rows
from methodlint.rulebook.examples import lab_with
from methodlint.scaling.density_match import (
    common_setting,
    is_stiff,
    residual,
    solve_outlet_pressures,
)
from methodlint.scaling.settled import calibrated, flow_resistance_of, settled_states

from .ideal_mixing import IdealMixing

SCALED = 2.13 / 3.0

METHOD = """
kind: method
oven_temperature: 40 degC
outlet_pressure: 120 bar
flow: 3.0 mL/min
mobile_phase: {modifier_share: 5 % v/v}
programme: []
---
kind: instrument
co2_pump: {head_temperature: 10 degC}
---
kind: column
"""
WIDE = METHOD + "{length: 250 mm, inner_diameter: 4.6 mm, particle_size: 5 um}"
NARROW = METHOD + "{length: 150 mm, inner_diameter: 3.0 mm, particle_size: 3 um}"


def plan(text, fluid=None, kind="column"):
    documents = lab_with(_block(text))
    made = plan_run(documents["method"], (documents["column"],), documents["instrument"])
    assert made.missing == ()
    rows = complete_rows(documents["method"].model)
    return (replace(made, fluid=fluid) if fluid is not None else made), rows


def _block(text):
    head, _, card = text.rpartition("kind: column\n")
    lines = card.strip("{}").split(", ")
    return head + "kind: column\n" + "\n".join(lines) + "\n"


@pytest.fixture(scope="module")
def ideal():
    return IdealMixing()


def test_same_setting_gives_another_density(ideal):
    wide, rows = plan(WIDE, ideal)
    narrow, _ = plan(NARROW, ideal)
    slow = replace(rows[0], flow=rows[0].flow * SCALED)
    source, target = settled_states([(wide, rows[0]), (narrow, slow)])
    assert source.mean_density == pytest.approx(770.0, rel=0.02)
    assert target.mean_density == pytest.approx(796.0, rel=0.02)
    assert residual(source, target) == pytest.approx(0.035, abs=0.012)


def test_solved_setting_equalises_them(ideal):
    wide, rows = plan(WIDE, ideal)
    narrow, _ = plan(NARROW, ideal)
    slow = replace(rows[0], flow=rows[0].flow * SCALED)
    source = settled_states([(wide, rows[0])])
    match = solve_outlet_pressures(source, narrow, [slow])[0]
    assert match.found
    assert match.setting / 1e5 == pytest.approx(105.0, abs=5.0)
    assert residual(source[0], match.target) == pytest.approx(0.0, abs=5e-5)


def test_equal_means_hide_other_profiles():
    """The finer column spreads wider: denser at its inlet, lighter at its outlet."""
    wide, rows = plan(WIDE)
    narrow, _ = plan(NARROW)
    slow = replace(rows[0], flow=rows[0].flow * SCALED)
    source = settled_states([(wide, rows[0])])
    found = solve_outlet_pressures(source, narrow, [slow])[0].target
    assert found.outlet_density < source[0].outlet_density < source[0].inlet_density
    assert found.inlet_density > source[0].inlet_density


def test_a_run_matched_with_itself_keeps_its_setting():
    wide, rows = plan(WIDE)
    source = settled_states([(wide, rows[0])])
    match = solve_outlet_pressures(source, wide, rows)[0]
    assert match.setting == rows[0].outlet_pressure
    assert match.target.mean_density == source[0].mean_density


def test_matching_there_and_back_returns_the_setting():
    wide, rows = plan(WIDE)
    narrow, _ = plan(NARROW)
    slow = replace(rows[0], flow=rows[0].flow * SCALED)
    there = solve_outlet_pressures(settled_states([(wide, rows[0])]), narrow, [slow])[0]
    row = replace(rows[0], outlet_pressure=there.setting)
    back = solve_outlet_pressures([there.target], wide, [row])[0]
    assert back.setting / 1e5 == pytest.approx(120.0, abs=0.05)


def test_several_corners_are_solved_together_as_alone():
    wide, rows = plan(WIDE)
    narrow, _ = plan(NARROW)
    shares = [0.05, 0.15, 0.30]
    sources = settled_states([(wide, replace(rows[0], share=s)) for s in shares])
    targets = [replace(rows[0], share=s, flow=rows[0].flow * SCALED) for s in shares]
    together = solve_outlet_pressures(sources, narrow, targets)
    for source, row, found in zip(sources, targets, together, strict=True):
        alone = solve_outlet_pressures([source], narrow, [row])[0]
        assert alone.setting == pytest.approx(found.setting, abs=1.0)
        assert abs(residual(source, found.target)) < 5e-5


def test_one_setting_serves_corners_that_agree():
    wide, rows = plan(WIDE)
    source = settled_states([(wide, rows[0])])
    match = solve_outlet_pressures(source, wide, rows)[0]
    assert common_setting([match, match]) == (rows[0].outlet_pressure, 0.0)
    setting, leaves = common_setting([match], lowest=rows[0].outlet_pressure + 1e6)
    assert setting == rows[0].outlet_pressure + 1e6
    assert leaves > 0.0


def test_stiff_from_forty_per_cent_and_at_thirty_degrees():
    _, rows = plan(WIDE)
    assert not is_stiff(rows[0])
    assert is_stiff(replace(rows[0], share=0.40))
    assert is_stiff(replace(rows[0], oven_temperature=303.15))
    assert not is_stiff(replace(rows[0], oven_temperature=304.15))


def test_calibration_meets_the_measured_pressure():
    wide, rows = plan(WIDE)
    before = settled_states([(wide, rows[0])])[0].pump_pressure
    fitted = calibrated(wide, [(before + 8e5, rows[0])])
    after = settled_states([(fitted, rows[0])])[0].pump_pressure
    assert after == pytest.approx(before + 8e5, abs=0.05e5)
    assert flow_resistance_of(fitted) > flow_resistance_of(wide)
    assert wide.resistance_band is None
    assert fitted.resistance_band == 0.10


def test_calibration_refuses_less_than_the_regulator_holds():
    wide, rows = plan(WIDE)
    with pytest.raises(ValueError, match="no drop for the column"):
        calibrated(wide, [(118e5, rows[0])])
