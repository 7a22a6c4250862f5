"""The same thing said twice: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in

RULE = "document.contradiction"


@pytest.mark.parametrize(
    "text",
    [
        "title: Oligomers, 35 C\noven_temperature: 35 degC",
        "title: Oligomers, 308.15 K\noven_temperature: 40 degC",
        "title: 25 to 40 C study\noven_temperature: 25 degC\npreheater_temperature: 30 degC",
        "title: Kept at 5 C\noven_temperature: 35 degC\npreheater_temperature: 5 degC",
        "title: 5 to 90 % methanol\nmobile_phase: {modifier_share: 5 % v/v}",
        "title: 3C-labelled, 20 Cats\noven_temperature: 35 degC",
        "title: within tolerance, 36 C\noven_temperature: {value: 35 degC, tolerance: 2 degC}",
        "title: no field for it, 40 C",
    ],
)
def test_silent_for_titles_that_agree_or_speak_of_something_else(text: str) -> None:
    assert found_in(f"kind: method\n{text}\n", RULE) == []


def test_silent_for_a_column_s_title() -> None:
    text = "title: 3.0 x 150 mm, 3 um\nlength: 150 mm\ninner_diameter: 3 mm\nparticle_size: 3 um"
    assert found_in(f"kind: column\n{text}\n", RULE) == []


def test_silent_for_a_programme_that_starts_as_the_header_says() -> None:
    rows = "programme: [{time: 0 min, flow: 2 mL/min}, {time: 5 min, flow: 1 mL/min}]"
    assert found_in(f"kind: method\nflow: 2 mL/min\n{rows}\n", RULE) == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("title: Oligomers, 40 C\noven_temperature: 35 degC", "the title says 40 C"),
        ("title: At 100 bar\noutlet_pressure: 150 bar", "the title says 100 bar"),
        ("title: 2 mL/min\nflow: 1.5 mL/min", "the title says 2 mL/min"),
        (
            (
                "mobile_phase: {modifier_share: 5 % v/v}\n"
                "programme: [{time: 0 min}, {time: 5 min, modifier_share: 40 % v/v}]"
            ),
            "row 2 of the programme says 40 % v/v",
        ),
        (
            "flow: 2 mL/min\nprogramme: [{time: 0 min, flow: 1 mL/min}]",
            "'flow' says 2 mL/min, the programme starts with 1 mL/min",
        ),
        (
            "run_length: 6 min\nprogramme: [{time: 0 min}, {time: 6.5 min}]",
            "the run ends at 6 min, the last row of the programme is at 6.5 min",
        ),
        ("pressure_limits: {low: 300 bar, high: 200 bar}", "'low' (300 bar) is above 'high'"),
        (
            "injection: {diluent: {liquid: methanol, liquids: [{liquid: water, share: 5 %}]}}",
            "one liquid ('methanol') and a blend of 1",
        ),
    ],
)
def test_both_statements_are_given(text: str, said: str) -> None:
    (found,) = found_in(f"kind: method\n{text}\n", RULE)
    assert found.grade == ("note" if text.startswith("title") else "caution")
    assert said in found.message
    assert found.also


def test_the_length_of_the_run_is_left_to_the_gradient_where_an_instrument_is_named() -> None:
    text = "runs_on: [instrument]\nrun_length: 6 min\nprogramme: [{time: 0 min}, {time: 6.5 min}]"
    assert found_in(f"kind: method\n{text}\n", RULE) == []


def test_more_than_full() -> None:
    (found,) = found_in("kind: supply\nnet_mass: 40 kg\nfull_mass: 37.5 kg\n", RULE)
    assert "'net_mass' (40 kg) is above 'full_mass' (37.5 kg)" in found.message


def test_the_full_mass_of_one_cylinder_on_the_card_of_six() -> None:
    """37.5 kg in 300 L are 0.125 kg/L; 0.6 to 0.75 kg/L are usual (common practice)."""
    bank = "kind: supply\ncylinders: 6\nwater_capacity: 50 L\nnet_mass: 190 kg\nfull_mass: "
    assert found_in(bank + "225 kg\n", RULE) == []
    (found,) = found_in(bank + "37.5 kg\n", RULE)
    assert found.remedy == "write the mass of all cylinders, 225 kg"


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("full_mass: 37.5 kg\nwater_capacity: 50 L", id="the same"),
        pytest.param("full_mass: 38.2 kg\nwater_capacity: 50 L", id="1.9 % by rounding"),
        pytest.param("full_mass: 1.3 kg\nwater_capacity: 1.5 L", id="less than a scale shows"),
        pytest.param("full_mass: 34 kg\nwater_capacity: 50 L", id="the ratio is the most allowed"),
        pytest.param("full_mass: 37.5 kg", id="no capacity"),
        pytest.param("net_mass: 20 kg\nwater_capacity: 50 L", id="partly used"),
        pytest.param("cylinders: 12\nfull_mass: 450 kg\nwater_capacity: 50 L", id="bundle"),
        pytest.param("full_mass: 450 kg\nwater_capacity: 600 L", id="bundle as one"),
        pytest.param("withdrawal: bulk\nfull_mass: 950 kg\nwater_capacity: 1000 L", id="tank"),
        pytest.param("full_mass: 45 kg\nwater_capacity: 50 L", id="said by supply.overfilled"),
        pytest.param("net_mass: 85 kg\nwater_capacity: 50 L", id="a slip, said there too"),
    ],
)
def test_a_filling_ratio_that_agrees(text: str) -> None:
    assert found_in(f"kind: supply\nfilling_ratio: 0.75 g/mL\n{text}\n", RULE) == []


@pytest.mark.parametrize("field", ["full_mass", "net_mass"])
def test_more_than_the_filling_ratio_says(field: str) -> None:
    text = f"kind: supply\nfilling_ratio: 0.68 g/mL\n{field}: 37.5 kg\nwater_capacity: 50 L\n"
    (found,) = found_in(text, RULE)
    assert found.grade == "caution"
    said = f"'filling_ratio' says 0.68 g/mL, '{field}' (37.5 kg) in 50 L makes 0.75 g/mL"
    assert said in found.message
    assert found.at.path == ("filling_ratio",)
    assert [at.path for at in found.also] == [(field,)]


def test_an_impossible_mass_is_not_told_as_above_full_too() -> None:
    card = "kind: supply\nnet_mass: 310 kg\nfull_mass: 37.5 kg\n"
    assert found_in(f"{card}water_capacity: 50 L\n", RULE) == []
    (found,) = found_in(card, RULE)
    assert "'net_mass' (310 kg) is above 'full_mass'" in found.message


MIXER = "train: [{part: mixer, volume: 0.2 mL}, {part: injector, volume: 10 uL}, {part: column}]"


@pytest.mark.parametrize(
    ("dwell", "words"),
    [
        ("dwell_volume: 0.15 mL", "the mixer alone has 0.2 mL"),
        # Half of a step has left a stirred tank after ln 2 of its volume: 0.139 mL of 0.2 mL.
        (
            "dwell_volume: 0.13 mL\ndwell_measured_by: step at half height",
            "the mixer alone has 0.2 mL",
        ),
        ("dwell_volume: {value: 0.18 mL, tolerance: 5 uL}", "the mixer alone has 0.2 mL"),
    ],
)
def test_a_mixer_larger_than_the_dwell_volume(dwell: str, words: str) -> None:
    (found,) = found_in(f"kind: instrument\n{dwell}\n{MIXER}\n", RULE)
    assert found.grade == "caution"
    assert words in found.message


def test_parts_that_add_up_to_more_than_the_dwell_volume() -> None:
    """A tube of 1 m and 0.5 mm holds 0.196 mL: with the mixer 0.4 mL, not 0.3 mL."""
    long = MIXER.replace(
        "{part: column}", "{part: tube, length: 1 m, bore: 0.5 mm}, {part: column}"
    )
    (found,) = found_in(f"kind: instrument\ndwell_volume: 0.3 mL\n{long}\n", RULE)
    assert "upstream of the column have 0.406 mL" in found.message


@pytest.mark.parametrize(
    "dwell",
    [
        "dwell_volume: 0.21 mL",
        "dwell_volume: 0.2 mL",
        "dwell_volume: 0.15 mL\ndwell_measured_by: step at half height",
        "dwell_volume: {value: 0.18 mL, tolerance: 30 uL}",
        "dwell_measured_by: parts",
    ],
)
def test_silent_for_a_dwell_volume_that_can_hold_its_parts(dwell: str) -> None:
    assert found_in(f"kind: instrument\n{dwell}\n{MIXER}\n", RULE) == []


def test_silent_for_a_bypassed_mixer() -> None:
    away = MIXER.replace("0.2 mL", "0.2 mL, bypassed: true")
    assert found_in(f"kind: instrument\ndwell_volume: 0.1 mL\n{away}\n", RULE) == []


@pytest.mark.parametrize(
    ("sampler", "number"),
    [
        ("tray_lowest: 4 degC, tray_highest: 40 degC, tray_temperature: 10 degC", 0),
        ("tray_lowest: 4 degC, tray_highest: 40 degC, tray_temperature: 140 degC", 1),
        ("tray_lowest: 4 degC, tray_highest: 40 degC, tray_temperature: 2 degC", 1),
    ],
)
def test_a_tray_outside_its_own_span(sampler: str, number: int) -> None:
    assert len(found_in(f"kind: instrument\nautosampler: {{{sampler}}}\n", RULE)) == number


@pytest.mark.parametrize(
    ("begins", "booked", "number"),
    [
        ("2026-11-24T09:00", "2026-11-24T08:30", 0),
        ("2026-11-24T09:00+01:00", "2026-11-24T08:30+01:00", 0),
        ("2026-11-24T09:00+01:00", "2026-11-24T08:30+05:00", 1),
        ("2026-11-24T09:00", "2026-11-24T08:30+01:00", 1),
    ],
)
def test_a_start_and_a_slot_on_different_clocks(begins: str, booked: str, number: int) -> None:
    text = f'kind: sequence\nbegins: "{begins}"\nslot: {{begins: "{booked}", length: 9 h}}\n'
    assert len(found_in(text, RULE)) == number
