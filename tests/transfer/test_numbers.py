"""What a transfer proposes, item by item; silent cases first."""

from __future__ import annotations

from itertools import pairwise

import pytest

from methodlint.scaling.density_match import is_stiff
from methodlint.scaling.headroom import loads_of
from methodlint.transfer.sides import CannotTransfer

from .lab import GRADIENT, ISOCRATIC, make_lab, moved, transferred

# Silent cases ------------------------------------------------------------------------------


@pytest.mark.parametrize("text", [GRADIENT, ISOCRATIC])
def test_a_transfer_to_itself_changes_no_number(tmp_path, text):
    result = moved(make_lab(tmp_path, text), to="here", column=None)
    assert result.feasible
    for entry in result.entries:
        if entry.source and entry.proposed and entry.item != "runs on":
            assert entry.proposed == entry.source, entry
    assert result.attempt.rows == result.sides.rows
    assert result.attempt.residuals == [0.0] * len(result.attempt.residuals)


def test_an_isocratic_transfer_speaks_of_no_dwell(tmp_path):
    slow = "kind: instrument\nx-name: there\ndwell_volume: 3 mL\n"
    result = moved(make_lab(tmp_path, ISOCRATIC, slow))
    assert result.feasible
    said = " ".join(f"{e.item} {e.reason}" for e in result.entries)
    assert "hold-up" in said
    assert "dwell" not in said
    assert "initial hold" not in said


@pytest.mark.parametrize(
    ("before", "after"),
    [("modifier_share: 20 % v/v", "modifier_share: 45 % v/v"), ("40 degC", "30 degC")],
    ids=["over 40 % modifier", "at 30 degC"],
)
def test_a_stiff_liquid_keeps_its_setting(tmp_path, before, after):
    result = moved(make_lab(tmp_path, ISOCRATIC.replace(before, after)))
    assert is_stiff(result.attempt.states[0].row)
    assert result.entry("outlet pressure").proposed == "150 bar"
    assert result.entry("outlet pressure").how == "copied"


def test_the_same_pumps_keep_the_share():
    result = transferred(ISOCRATIC)
    assert result.entry("modifier share").how == "copied"


# Numbers -----------------------------------------------------------------------------------


def test_flow_times_and_volume_by_geometry():
    """3.0 -> 2.13 mL/min, x 0.360, 10 -> 2.55 uL (printed as 2.6; common practice, no source)."""
    result = transferred(ISOCRATIC)
    assert result.entry("flow").proposed == "2.13 mL/min"
    assert result.entry("run length").geometry == "3.6 min"
    assert result.entry("injection volume").proposed == "2.55 uL"


def test_density_is_equal_and_the_setting_lower():
    result = transferred(ISOCRATIC)
    assert abs(result.attempt.residuals[0]) < 0.002
    assert 100e5 < result.attempt.rows[0].outlet_pressure < 148e5
    assert "at the column outlet" in result.entry("outlet pressure").why


def test_column_volumes_of_every_segment_are_kept():
    result = transferred()
    rows = result.proposed.model.programme
    sides, tried = result.sides, result.attempt
    first = rows[1] if len(rows) == 5 else rows[0]
    times = [first.time.si, *[row.time.si for row in rows[-3:]]]
    for i, (a, b) in enumerate(pairwise(times)):
        one, two = sides.corner_of[i], sides.corner_of[i + 1]
        before = (sides.rows[i + 1].time - sides.rows[i].time) * 0.5
        before *= 1 / sides.states[one].hold_up_time + 1 / sides.states[two].hold_up_time
        after = (b - a) * 0.5
        after *= 1 / tried.states[one].hold_up_time + 1 / tried.states[two].hold_up_time
        assert after == pytest.approx(before, rel=0.02)


def test_dwell_reaches_the_column_after_as_many_volumes():
    """(hold F + V_D)/V_column kept (common practice, no source)."""
    result = transferred()
    hold = result.proposed.model.programme[1].time.si
    sides, tried = result.sides, result.attempt
    before = sides.source.dwell_volume / sides.rows[0].flow / sides.states[0].hold_up_time
    after = hold + sides.target.dwell_volume / tried.rows[0].flow
    assert after / tried.states[0].hold_up_time == pytest.approx(before, abs=0.02)


def test_a_slower_head_is_made_up_for_by_the_share(tmp_path):
    warm = "kind: instrument\nx-name: there\nco2_pump: {head_temperature: 20 degC}\n"
    result = moved(make_lab(tmp_path, ISOCRATIC, warm), column=None)
    match, state = result.attempt.matches[0], result.attempt.states[0]
    assert state.w_modifier == pytest.approx(match.source.w_modifier, rel=0.005)
    assert state.mass_flow == pytest.approx(match.source.mass_flow, rel=0.01)
    # Lighter CO2 per set millilitre: less modifier by volume for the same mass fraction.
    assert state.row.share < 0.20
    assert state.row.flow > match.source.row.flow


def test_steps_stay_steps(tmp_path):
    text = GRADIENT.replace(
        "time: 8.5 min, modifier_share: 5 % v/v",
        "time: 8.5 min, modifier_share: 5 % v/v, step: true",
    )
    result = moved(make_lab(tmp_path, text), column=None)
    assert [row.step for row in result.proposed.model.programme][-1] is True


def test_peaks_move_with_the_hold_up_time():
    result = transferred()
    assert result.peaks
    for peak in result.peaks:
        ratio = peak.target_time / peak.time
        low = min(s.hold_up_time / m.source.hold_up_time for m, s in _pairs(result))
        high = max(s.hold_up_time / m.source.hold_up_time for m, s in _pairs(result))
        assert low - 1e-9 <= ratio <= high + 1e-9
        assert peak.target_plates == pytest.approx(peak.plates)  # L/dp is the same: 50000


def _pairs(result):
    return zip(result.attempt.matches, result.attempt.states, strict=True)


def test_data_rate_follows_the_narrowest_peak():
    """20 points over a base width of 4 tR/sqrt(N) (common practice)."""
    result = transferred()
    width = min(p.target_width for p in result.peaks)
    detector = result.proposed.model.detectors[0]
    assert detector.rate.si * width >= 20.0 * 0.999
    assert detector.filter.si <= 0.1 * width * 1.001


def test_injection_is_held_by_the_autosampler(tmp_path):
    card = "kind: instrument\nx-name: there\nautosampler: {lowest_volume: 3 uL, highest_volume: 8 uL}\n"
    result = moved(make_lab(tmp_path, ISOCRATIC, card))
    entry = result.entry("injection volume")
    assert entry.proposed == "3 uL"
    assert entry.how == "limited by"


def test_duration_is_kept_when_asked(tmp_path):
    result = moved(make_lab(tmp_path, ISOCRATIC), keep="duration")
    assert result.proposed.model.run_length.si == pytest.approx(600.0, rel=0.01)
    # V2/V1 = 0.255 (arithmetic).
    assert result.attempt.factor == pytest.approx(0.2552, abs=0.0002)
    assert result.proposed.model.transfer.flow_reason == "duration kept"


def test_shortened_runs_faster_and_stays_inside_limits(tmp_path):
    file = make_lab(tmp_path, ISOCRATIC)
    usual, short = moved(file), moved(file, shorten=True)
    assert short.attempt.factor > usual.attempt.factor
    assert short.proposed.model.run_length.si < usual.proposed.model.run_length.si
    assert short.attempt.beyond == ()
    assert short.proposed.model.transfer.flow_reason == "shortened on purpose"


def test_shortening_stays_inside_the_allowance(tmp_path):
    """Flow +-50 % after scaling (USP <621>, secondary quotations)."""
    result = moved(make_lab(tmp_path, ISOCRATIC), shorten=True, allowances="pharmacopoeial")
    assert result.attempt.factor / (3.0**2 / 4.6**2 * 5 / 3) <= 1.5 + 1e-9
    assert not any(use.exceeded for use in result.uses)
    assert "analogy" in result.allowances.note


def test_a_measured_pressure_calibrates_the_source(tmp_path):
    plain = moved(make_lab(tmp_path / "a", ISOCRATIC))
    pump = plain.sides.states[0].pump_pressure / 1e5 + 15.0
    text = (
        ISOCRATIC
        + f"measured_pressures:\n  - {{pump_pressure: {pump:.1f} bar, modifier_share: 20 % v/v}}\n"
    )
    result = moved(make_lab(tmp_path / "b", text))
    assert result.sides.states[0].pump_pressure / 1e5 == pytest.approx(pump, abs=0.2)
    assert any("measured pressure" in remark for remark in result.remarks)
    # A source that loses more holds a denser column: the target's setting rises with it.
    assert result.attempt.rows[0].outlet_pressure > plain.attempt.rows[0].outlet_pressure
    assert result.proposed.model.measured_pressures == ()


def test_a_programme_of_settings_where_one_value_cannot_do_it(tmp_path):
    text = GRADIENT.replace("outlet_pressure: 150 bar", "outlet_pressure: 200 bar").replace(
        "degC", "degC", 1
    )
    tubes = "kind: column\nx-name: narrow\nlength: 250 mm\nparticle_size: 2.5 um\n"
    result = moved(make_lab(tmp_path, text, tubes))
    if not result.attempt.one_value:
        settings = [row.outlet_pressure for row in result.proposed.model.programme]
        assert all(setting is not None for setting in settings[-3:])
    assert result.attempt.worst_residual < 0.05


# What is limited, and what is not possible ----------------------------------------------------

WEAK = """
kind: instrument
x-name: there
co2_pump: {pressure_rating: 240 bar, envelope: [{flow: 5 mL/min, pressure: 240 bar}], head_temperature: 8 degC}
"""


def test_too_much_pressure_offers_a_feasible_slower_one(tmp_path):
    result = moved(make_lab(tmp_path, GRADIENT, WEAK))
    assert result.feasible
    entry = result.entry("flow")
    assert entry.how == "limited by"
    assert "CO2 pump" in entry.limit
    assert result.attempt.factor < 0.7089
    worst = max(
        load.pressure for load in loads_of(result.attempt.states[1].run) if load.name == "CO2 pump"
    )
    assert worst <= 0.9 * 240e5
    assert any("proposed instead" in way.text and way.computed for way in result.ways)
    # Times go with the slower flow.
    assert result.proposed.model.run_length.si > 600.0 * 0.36


PREP = """
kind: instrument
x-name: there
co2_pump: {highest_flow: 100 mL/min, pressure_rating: 420 bar, envelope: [{flow: 20 mL/min, pressure: 420 bar}], head_temperature: 8 degC, metering: volume, inlet: liquid}
modifier_pump: {highest_flow: 100 mL/min, pressure_rating: 420 bar, lines: [modifier-1]}
"""
PREP_COLUMN = """
kind: column
x-name: narrow
length: 250 mm
inner_diameter: 21.2 mm
particle_size: 5 um
"""


def test_an_envelope_is_that_of_a_pump_s_own_flow(tmp_path):
    """3 mL/min x (21.2 / 4.6)^2 are 63.7 mL/min; 65 % of the richest row are 41.4 (by hand)."""
    wide = PREP.replace("flow: 20 mL/min", "flow: 61 mL/min")
    result = moved(make_lab(tmp_path, GRADIENT, wide, PREP_COLUMN))
    # 95 % of 63.7 are 60.5 mL/min of CO2, which the envelope holds though not the whole flow.
    assert "envelope ends" not in result.entry("flow").limit
    assert not any("envelope ends" in way.text for way in result.ways)


def test_a_flow_beyond_the_envelope_is_not_delivered_at_all(tmp_path):
    """95 % of 63.7 mL/min are 60.5 mL/min of CO2 (by hand); no pressure is told for it."""
    result = moved(make_lab(tmp_path, GRADIENT, PREP, PREP_COLUMN))
    said = " ".join(
        [*(way.text for way in result.ways), *(found.message for found in result.obstacles)]
    )
    assert "that flow is not delivered at all (CO2 pump: 60.5 mL/min needed, " in said
    assert "its envelope ends at 20 mL/min)" in said
    assert "would see" not in said
    assert " 0 bar" not in said
    assert "a column of at most" not in said  # no shorter column cures it


def test_nothing_feasible_names_the_binding_constraint(tmp_path):
    text = WEAK.replace("240", "165")
    result = moved(make_lab(tmp_path, GRADIENT, text))
    assert not result.feasible
    assert result.exit_status() == 4
    assert "CO2 pump" in result.obstacles[0].message
    assert result.text == ""
    with pytest.raises(ValueError, match="CO2 pump"):
        result.write(tmp_path / "never.yaml")
    assert not (tmp_path / "never.yaml").exists()


def test_dwell_that_no_hold_can_cure_names_the_mixer(tmp_path):
    slow = "kind: instrument\nx-name: there\ndwell_volume: 1.5 mL\n"
    result = moved(make_lab(tmp_path, GRADIENT, slow))
    assert result.exit_status() == 4
    assert result.obstacles[0].name == "dwell volume"
    assert "mixer" in result.obstacles[0].message
    assert result.entry("initial hold").proposed == "not possible"


def test_delayed_injection_where_the_autosampler_can(tmp_path):
    slow = (
        "kind: instrument\nx-name: there\ndwell_volume: 1.5 mL\n"
        "autosampler: {injects_after_start: true, loop: 10 uL}\n"
    )
    result = moved(make_lab(tmp_path, GRADIENT, slow))
    assert result.feasible
    delay = result.proposed.model.injection.after_start
    sides, tried = result.sides, result.attempt
    late = sides.target.dwell_volume / tried.rows[0].flow
    late -= (
        sides.source.dwell_volume
        / sides.rows[0].flow
        * (tried.states[0].hold_up_time / sides.states[0].hold_up_time)
    )
    assert delay.si == pytest.approx(late, abs=0.7)


@pytest.mark.parametrize(
    ("card", "name"),
    [
        ("kind: column\nx-name: narrow\ntemperature_limit: 35 degC\n", "column temperature"),
        ("kind: instrument\nx-name: there\noven: {highest: 35 degC}\n", "oven"),
        (
            "kind: instrument\nx-name: there\nmodifier_pump: {highest_share: 30 % v/v}\n",
            "modifier share",
        ),
    ],
)
def test_what_no_flow_or_pressure_can_meet(tmp_path, card, name):
    result = moved(make_lab(tmp_path, GRADIENT, card))
    assert [item.name for item in result.obstacles] == [name]
    assert result.exit_status() == 4


def test_a_regulator_that_cannot_go_lower_limits_the_setting(tmp_path):
    card = "kind: instrument\nx-name: there\nregulator: {lowest: 145 bar, highest: 380 bar}\n"
    result = moved(make_lab(tmp_path, ISOCRATIC, card))
    entry = result.entry("outlet pressure")
    assert entry.how == "limited by"
    assert "regulator" in entry.limit
    assert entry.proposed == "145 bar"
    assert result.attempt.residuals[0] > 0.0


def test_a_missing_figure_is_named(tmp_path):
    file = make_lab(tmp_path, GRADIENT.replace("run_length: 10 min\n", ""))
    with pytest.raises(CannotTransfer, match="run_length"):
        moved(file)


def test_a_weak_cell_behind_the_column_limits_the_regulator_not_the_flow(tmp_path):
    """Equal density on larger particles wants more outlet pressure than nine tenths of 172 bar."""
    cell = """
kind: instrument
x-name: there
train:
  - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
  - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
  - {part: column}
  - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 172 bar, detector: UV}
  - {part: regulator, name: regulator, pressure_rating: 380 bar}
"""
    text = ISOCRATIC.replace("column: wide", "column: narrow").replace("3.0 mL", "1.8 mL")
    text = text.replace("20 % v/v", "8 % v/v")
    result = moved(make_lab(tmp_path, text, cell), column="wide")
    assert result.feasible
    entry = result.entry("outlet pressure")
    assert entry.how == "limited by"
    assert "UV cell" in entry.limit
    assert result.proposed.model.outlet_pressure.si <= 0.9 * 172e5
    assert result.entry("flow").how != "limited by"
