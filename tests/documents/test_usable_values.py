"""A value that is used is usable: zeros, absurd tolerances and impossible spans are findings.

What is usable follows from the quantity itself (arithmetic); usual spans: common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.value-implausible"
SHAPE = "document.shape-wrong"

_REST = "flow: 2 mL/min, modifier_share: 5 % v/v, temperature: 40 degC, outlet_pressure: 150 bar"
ZEROS = [
    ("column", "pressure_rating: {} bar"),
    ("column", "drop_rating: {} bar"),
    ("column", "length: {} mm"),
    ("column", "inner_diameter: {} mm"),
    ("column", f"measured_drop: {{{{pressure_drop: {{}} bar, {_REST}}}}}"),
    ("instrument", "dwell_volume: {} mL"),
    ("instrument", "train: [{{part: tube, length: 300 mm, bore: {} mm}}]"),
    ("instrument", "train: [{{part: tube, length: {} mm, bore: 0.2 mm}}]"),
    ("instrument", "train: [{{part: cell, pressure_rating: {} bar}}]"),
    ("instrument", "vent_line: {{length: 3 m, bore: {} mm}}"),
    ("instrument", "autosampler: {{loop: {} uL}}"),
    ("instrument", "co2_pump: {{highest_flow: {} mL/min}}"),
    ("instrument", "co2_pump: {{envelope: [{{flow: 5 mL/min, pressure: {} bar}}]}}"),
    ("instrument", "ms: {{gas_flow: {} L/min}}"),
    ("method", "flow: {} mL/min"),
    ("method", "flow: {} g/min"),
    ("method", "run_length: {} min"),
    ("method", "suitability: {{rsd: {} %}}"),
    ("room", "volume: {} m3"),
    ("room", "outdoor_co2: {} ppm"),
    ("room", "waste: [{{name: w, capacity: {} L}}]"),
    ("supply", "water_capacity: {} L"),
    ("supply", "cylinder_relief: {} bar"),
    ("supply", "grade: {} %"),
    ("supply", "full_mass: {} kg"),
    ("supply", "filling_ratio: {} g/mL"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "line"), ZEROS)
def test_a_zero_by_which_nothing_can_be_judged(kind: str, line: str) -> None:
    (found,) = found_in(f"kind: {kind}\n{line.format(0)}\n", RULE)
    assert found.grade == "fault"
    assert '"0 ' in found.message
    assert found.remedy


@pytest.mark.parametrize(("kind", "line"), ZEROS)
def test_the_same_value_above_zero_is_no_fault(kind: str, line: str) -> None:
    used = "100" if "ppm" not in line and "%}" not in line else "400" if "ppm" in line else "2"
    used = "0.7" if "g/mL" in line else used
    found = found_in(f"kind: {kind}\n{line.format(used)}\n", RULE)
    assert [f.message for f in found if f.grade == "fault"] == []


@pytest.mark.parametrize(
    ("kind", "line"),
    [
        ("method", "makeup: {flow: 0 mL/min}"),
        ("method", "programme: [{time: 0 min, flow: 0 mL/min}]"),
        ("method", "pressure_limits: {low: 0 bar}"),
        ("method", "mobile_phase: {modifier_share: 0 % v/v}"),
        ("instrument", "regulator: {lowest: 0 bar}"),
        ("instrument", "co2_pump: {lowest_flow: 0 mL/min, envelope: [{flow: 0 mL/min, pressure: 400 bar}]}"),
        ("instrument", "autosampler: {vessels: [{name: v, dead_volume: 0 uL}]}"),
        ("supply", "heel: 0 kg\nspare_mass: 0 kg\nnet_mass: 0 kg\nline_loss: 0 bar"),
        ("room", "waste: [{name: w, capacity: 5 L, level: 0 L}]"),
        ("solvents", "bottles: [{line: modifier-1, liquid: methanol, dead_volume: 0 mL}]"),
        ("sequence", "lines: [{kind: idle, duration: 0 min, flow: 0 mL/min}]"),
    ],
)  # fmt: skip
def test_silent_for_a_zero_that_says_something(kind: str, line: str) -> None:
    assert report_on(f"kind: {kind}\n{line}\n", RULE, SHAPE).findings == []


@pytest.mark.parametrize(
    ("kind", "line"),
    [
        ("supply", "cylinders: 0"),
        ("method", "suitability: {replicates: 0}"),
        ("column", "total_porosity: 1.0"),
        ("column", "external_porosity: 1.4"),
        ("column", "total_porosity: 0"),
        ("column", "injections: {count: 3, limit: 0}"),
        ("column", "ph_limits: [2, 80]"),
        ("instrument", "autosampler: {vessels: [{name: v, rows: 0, columns: 9}]}"),
    ],
)
def test_a_number_that_none_can_be(kind: str, line: str) -> None:
    (found,) = found_in(f"kind: {kind}\n{line}\n", SHAPE)
    assert found.grade == "fault"


def test_silent_for_the_numbers_of_real_cards() -> None:
    text = (
        "kind: column\ntotal_porosity: 0.65\nexternal_porosity: 0.38\nph_limits: [1, 12]\n"
        "injections: {count: 0, limit: 3000}\nplates: 12000\n"
    )
    assert report_on(text, RULE, SHAPE).findings == []


@pytest.mark.parametrize(
    ("kind", "line", "grade"),
    [
        ("method", "flow: {value: 1.5 mL/min, tolerance: 500 %}", "fault"),
        ("method", "flow: {value: 1.5 mL/min, tolerance: 1.5 mL/min}", "fault"),
        ("method", "outlet_pressure: {value: 130 bar, tolerance: 130 bar}", "fault"),
        ("method", "outlet_pressure: {value: 130 bar, tolerance: 100 bar}", "caution"),
        ("method", "oven_temperature: {value: 40 degC, tolerance: 2000 degC}", "fault"),
        ("method", "oven_temperature: {value: 40 degC, tolerance: 60 K}", "caution"),
        ("supply", "store_temperature: {value: 15 degC, tolerance: 2000 degC}", "fault"),
    ],
)
def test_a_tolerance_that_leaves_nothing_of_the_value(kind: str, line: str, grade: str) -> None:
    (found,) = found_in(f"kind: {kind}\n{line}\n", RULE)
    assert found.grade == grade
    assert "tolerance" in found.message


@pytest.mark.parametrize(
    "line",
    [
        "flow: {value: 1.5 mL/min, tolerance: 2 %}",
        "outlet_pressure: {value: 130 bar, tolerance: 5 bar}",
        "oven_temperature: {value: 5 degC, tolerance: 10 degC}",
        "programme: [{time: 0 min, modifier_share: {value: 0 % v/v, tolerance: 1 % v/v}}]",
    ],
)
def test_silent_for_a_tolerance_of_the_trade(line: str) -> None:
    assert report_on(f"kind: method\n{line}\n", RULE, SHAPE).findings == []


@pytest.mark.parametrize(
    ("kind", "line", "words"),
    [
        ("room", "volume: 45000 m3", "above"),
        ("room", "volume: 0.045 m3", "below"),
        ("room", "air_changes: 0 1/h", "below"),
        ("room", "outdoor_co2: 420000 ppm", "above"),
        ("supply", "grade: 9.9995 %", "below"),
        ("instrument", "dwell_volume: 440 mL", "above"),
        ("instrument", "train: [{part: cell, volume: 13 mL}]", "above"),
        ("instrument", "autosampler: {vessels: [{name: v, rows: 6000, columns: 9}]}", "above"),
        ("column", "plates: 7", "below"),
        ("method", "suitability: {resolution: 2000}", "above"),
    ],
)
def test_a_figure_a_thousand_times_off_is_named(kind: str, line: str, words: str) -> None:
    (found,) = found_in(f"kind: {kind}\n{line}\n", RULE)
    assert found.grade == "caution"
    assert f"{words} the usual" in found.message


def test_silent_for_sizes_from_the_smallest_bench_to_the_largest() -> None:
    cards = (
        "kind: room\nvolume: 12 m3\nair_changes: 0.2 1/h\n",
        "kind: room\nvolume: 3000 m3\nair_changes: 40 1/h\n",
        "kind: instrument\ndwell_volume: 0.05 mL\nms: {gas_flow: 12 L/min}\n",
        "kind: instrument\ntrain: [{part: mixer, volume: 50 uL}, {part: cell, volume: 0.2 uL}]\n",
        "kind: instrument\ndwell_volume: 8 mL\nco2_pump: {highest_flow: 350 mL/min}\n",
        "kind: supply\nwater_capacity: 6000 L\nnet_mass: 2900 kg\nwithdrawal: bulk\n",
    )
    for card in cards:
        assert report_on(card, RULE).findings == []


@pytest.mark.parametrize("hour", ["80:00", "eight", "8000 :00", "25:00"])
def test_staffed_hours_that_no_clock_shows(hour: str) -> None:
    text = f'kind: room\nstaffed: {{begins: "{hour}", ends: "18:00"}}\n'
    (found,) = found_in(text, RULE)
    assert "not a time of day" in found.message
    assert found_in(text, "document.word-not-known") == []
    assert found_in(text, SHAPE) == []


def test_a_trip_or_relief_above_the_rating_protects_nothing() -> None:
    rule = "document.contradiction"
    part = "train: [{{part: cell, name: UV cell, pressure_rating: 400 bar, relief: {} bar}}]"
    (found,) = found_in(f"kind: instrument\n{part.format(500)}\n", rule)
    assert "protects nothing" in found.message
    assert found_in(f"kind: instrument\n{part.format(390)}\n", rule) == []
    supply = "kind: supply\ncylinder_relief: {} bar\nrated_parts: [{{part: hose, pressure_rating: 250 bar}}]\n"
    (found,) = found_in(supply.format(600), rule)
    assert "protects none" in found.message
    assert found_in(supply.format(190), rule) == []


@pytest.mark.parametrize(
    "store",
    ["-60 degC", "{lowest: -60 degC, highest: 15 degC}", "{value: -50 degC, tolerance: 9 K}"],
)
def test_a_store_of_dry_ice(store: str) -> None:
    """Triple point of CO2 at 216.592 K (Span and Wagner 1996)."""
    (fault,) = [
        found
        for found in found_in(f"kind: supply\nstore_temperature: {store}\n", RULE)
        if found.grade == "fault"
    ]
    assert "triple point" in fault.message
    assert found_in("kind: supply\nstore_temperature: -20 degC\n", RULE) == []


def test_an_additive_without_a_level_is_none() -> None:
    additive = "additives: [{{additive: ammonium formate, level: {} mM}}]"
    text = f"kind: solvents\nbottles: [{{{{line: m, liquid: methanol, {additive}}}}}]\n"
    (found,) = found_in(text.format(0), RULE)
    assert found.grade == "fault"
    assert found_in(text.format(5), RULE) == []
    limit = "kind: column\nadditive_limits: [{additive: diethylamine, level: 0 mM}]\n"
    assert found_in(limit, RULE) == []


@pytest.mark.parametrize("kind", ["flush", "equilibration"])
def test_a_step_that_takes_no_time_does_nothing(kind: str) -> None:
    line = f"kind: sequence\nlines: [{{{{kind: {kind}, duration: {{}} min}}}}]\n"
    (found,) = found_in(line.format(0), RULE)
    assert "takes no time" in found.message
    assert found_in(line.format(5), RULE) == []


def test_an_injection_that_the_loop_cannot_hold() -> None:
    sampler = "kind: instrument\nautosampler: {{loop: 10 uL, highest_volume: {} uL{}}}\n"
    rule = "document.contradiction"
    (found,) = found_in(sampler.format(50, ""), rule)
    assert "more than the loop holds" in found.message
    assert found_in(sampler.format(10, ""), rule) == []
    assert found_in(sampler.format(50, ", flow_through_needle: true"), rule) == []


def test_a_step_without_any_flow_does_nothing() -> None:
    line = "kind: sequence\nlines: [{{kind: flush, duration: 5 min, flow: {} mL/min}}]\n"
    (found,) = found_in(line.format(0), RULE)
    assert "without any flow" in found.message
    assert found_in(line.format(1), RULE) == []


@pytest.mark.parametrize(
    ("key", "sound", "unsound"),
    [
        ("detector: UV", "cell", "tube"),
        ("split_ratio: 10 %", "splitter", "cell"),
        ("active: true", "splitter", "tee"),
    ],
)
def test_a_key_of_another_kind_of_part(key: str, sound: str, unsound: str) -> None:
    card = "kind: instrument\ntrain: [{{part: {}, name: x, {}}}]\n"
    rule = "document.contradiction"
    (found,) = found_in(card.format(unsound, key), rule)
    assert "belongs to" in found.message
    assert found_in(card.format(sound, key), rule) == []
