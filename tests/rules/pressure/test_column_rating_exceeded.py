"""Column inlet against the rating of the column card."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "pressure.column-rating-exceeded"
FAMILY = (
    RULE,
    "pressure.pump-envelope-exceeded",
    "pressure.component-rating-exceeded",
    "pressure.column-drop-exceeded",
)

STEPPED = """
kind: method
oven_temperature: 25 degC
outlet_pressure: 110 bar
programme:
  - {time: 0 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}
  - {time: 4 min, modifier_share: 40 % v/v, flow: 1.5 mL/min}
  - {time: 4.1 min, modifier_share: 90 % v/v, flow: 0.7 mL/min, step: true}
  - {time: 7 min, modifier_share: 90 % v/v, flow: 0.7 mL/min}
"""
BACK_SLOWLY = (
    STEPPED
    + """  - {time: 7.1 min, modifier_share: 5 % v/v, flow: 0.7 mL/min, step: true}
  - {time: 10 min, modifier_share: 5 % v/v, flow: 0.7 mL/min}
  - {time: 10.1 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}
run_length: 11 min
"""
)
BACK_AT_ONCE = (
    STEPPED
    + """  - {time: 7.1 min, modifier_share: 5 % v/v, flow: 1.5 mL/min, step: true}
run_length: 11 min
"""
)


def test_silent_for_the_sound_lab() -> None:
    assert findings("", RULE) == []


def test_silent_where_the_rating_given_is_a_drop() -> None:
    """A drop rating is not the rating of the tube."""
    assert findings("kind: column\ndrop_rating: 100 bar", RULE) == []


def test_silent_where_the_flow_rises_after_the_lean_mobile_phase_has_filled_the_column() -> None:
    assert findings(BACK_SLOWLY, RULE) == []


def test_raising_the_flow_while_rich_mobile_phase_is_inside_is_a_stop() -> None:
    [found] = findings(BACK_AT_ONCE, RULE)
    assert found.grade == "stop"
    assert found.when is not None
    assert found.when.start is not None
    assert found.when.start > 7 * 60


def test_the_remedy_lowers_the_row_that_offends() -> None:
    [found] = findings(BACK_AT_ONCE, RULE)
    assert found.remedy.startswith("lower the flow in the programme: ")
    assert "at 7.1 min" in found.remedy
    assert "at 4 min" not in found.remedy


def test_the_worst_moment_is_later_than_the_last_row_says() -> None:
    [found] = findings("kind: column\npressure_rating: 250 bar", RULE)
    assert found.grade == "stop"
    assert found.cautions == ("pressure",)
    assert "40 % modifier in the column" in found.message
    assert "too much" in found.message
    assert found.when is not None
    assert found.when.end is not None
    assert found.when.end > 6.5 * 60
    assert found.remedy.startswith("set the flow to")


def test_above_nine_tenths_is_a_caution() -> None:
    worst = judged("", RULE).runs[0].run
    rating = float(worst.column_inlet_pressure.max()) / 1e5
    yaml = f"kind: column\npressure_rating: {rating / 0.95:.1f} bar\n---\nkind: method\n"
    yaml += f"pressure_limits: {{high: {rating / 0.96:.1f} bar}}"
    [found] = findings(yaml, RULE)
    assert found.grade == "caution"


def test_only_the_band_beyond_the_rating_is_a_possible_stop_unless_a_trip_protects() -> None:
    run = judged("", RULE).runs[0].run
    worst = run.highest(run.column_inlet_pressure)
    rating = (worst.value + 0.5 * worst.band) / 1e5
    column = f"kind: column\npressure_rating: {rating:.1f} bar\n---\nkind: method\n"
    [found] = findings(column + "pressure_limits: {high: 450 bar}", RULE)
    assert (found.grade, found.possible) == ("stop", True)
    assert "may reach" in found.message
    [found] = findings(column + f"pressure_limits: {{high: {rating:.1f} bar}}", RULE)
    assert (found.grade, found.possible) == ("caution", True)


def test_one_overpressure_is_one_finding() -> None:
    weak = """
kind: column
pressure_rating: 220 bar
drop_rating: 60 bar
---
kind: instrument
co2_pump: {envelope: [{flow: 5 mL/min, pressure: 220 bar}]}
train:
  - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 220 bar}
  - {part: column}
  - {part: regulator, name: regulator, pressure_rating: 380 bar}
"""
    report = judged(weak, *FAMILY)
    assert [found.rule for found in report.findings] == [RULE]

    def flat(found):
        return [found.rule, *(rule for child in found.because for rule in flat(child))]

    assert sorted(flat(report.findings[0])) == sorted(FAMILY)


def test_where_the_band_decides_one_measured_pressure_comes_first() -> None:
    worst = judged("", RULE).runs[0].run.worst_points.of("column").pressure
    rating = f"{(worst.value + 0.5 * worst.band) / 1e5:.1f} bar"
    [found] = findings(f"kind: column\npressure_rating: {rating}\n", RULE)
    assert found.possible
    assert found.remedy.startswith("measure one pressure on this column")
    assert found.band is not None
    assert found.band_below is not None
    assert found.band_below.value < found.band.value
    rating = f"{(worst.value - 0.1 * worst.band) / 1e5:.1f} bar"
    [certain] = findings(f"kind: column\npressure_rating: {rating}\n", RULE)
    assert not certain.possible
    assert "measure one pressure" not in certain.remedy
