"""Usual spans: common practice, no source; wavelengths 190 to 900 nm, temperatures -10 to 150 degC."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in
from tests.rules.harness import judged

RULE = "document.value-implausible"


@pytest.mark.parametrize(
    "text",
    [
        "oven_temperature: -10 degC",
        "oven_temperature: 150 degC",
        "flow: 0.01 mL/min",
        "flow: 150 mL/min",
        "detectors: [{type: UV, wavelength: 190 nm}, {type: UV, wavelength: 900 nm}]",
        "makeup: {flow: 0 mL/min}",
    ],
)
def test_silent_up_to_the_ends_of_the_span(text: str) -> None:
    assert found_in(f"kind: method\n{text}\n", RULE) == []


def test_silent_for_the_flow_of_a_declared_preparative_scale() -> None:
    assert found_in("kind: method\npurpose: preparative\nflow: 400 mL/min\n", RULE) == []


def test_silent_for_a_column_and_an_outlet_pressure_which_other_rules_judge() -> None:
    assert found_in("kind: column\nlength: 1500 mm\nparticle_size: 3 mm\n", RULE) == []
    assert found_in("kind: method\noutlet_pressure: 450 bar\n", RULE) == []


def test_ten_times_too_large() -> None:
    (found,) = found_in("kind: method\ndetectors: [{type: UV, wavelength: 2540 nm}]\n", RULE)
    assert found.grade == "caution"
    assert "is 2540 nm, above the usual 190 nm to 900 nm of a wavelength" in found.message
    assert "ten times too large" in found.message


def test_every_value_of_every_kind_is_looked_at() -> None:
    (found,) = found_in("kind: room\nwaste: [{name: w, capacity: 1e15 L}]\n", RULE)
    assert found.at.path == ("waste", 0, "capacity")


@pytest.mark.parametrize("text", ["31/02", "2026-02-30", "2026-13-01", "tomorrow"])
def test_a_day_that_no_calendar_has(text: str) -> None:
    (found,) = found_in(f"kind: supply\nweighed: {text}\n", RULE)
    assert found.grade == "fault"
    assert "is not a day of the calendar" in found.message


def test_silent_for_a_shelf_life_of_many_years() -> None:
    assert (
        found_in("kind: solvents\nbottles: [{line: a, liquid: water, expires: 2041-01-01}]\n", RULE)
        == []
    )


@pytest.mark.parametrize("text", ["begins: 2062-11-24T09:00", "prepared: 1986-11-24T09:00"])
def test_a_year_far_away(text: str) -> None:
    (found,) = found_in(f"kind: sequence\n{text}\n", RULE)
    assert found.grade == "caution"
    assert "no year of this work" in found.message


@pytest.mark.parametrize("limit", ["resolution: 0.4", "tailing: 9"])
def test_a_limit_of_suitability_that_cannot_fail(limit: str) -> None:
    (found,) = found_in(f"kind: method\nsuitability: {{{limit}}}\n", RULE)
    assert found.grade == "caution"


def test_silent_for_a_year_that_only_keeps_a_place() -> None:
    """9999 and 1970 are reported as left to be filled in."""
    bottle = "kind: solvents\nbottles: [{line: a, liquid: water, expires: 2999-01-01}]\n"
    assert found_in(bottle, RULE) == []


def test_a_duration_that_is_left_to_be_filled_in_is_not_missing_too() -> None:
    text = "kind: sequence\nlines:\n  - {{kind: flush, liquid: methanol{}}}\n"
    assert not judged(text.format(', duration: "<5 min>"'), "document.value-implausible").findings
    (found,) = judged(text.format(""), "document.value-implausible").findings
    assert "does not say how long it takes" in found.message
