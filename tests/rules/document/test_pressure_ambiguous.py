"""1 psi = 6894.757 Pa (NIST SP 811, table B.8, from memory): 2000 psi = 137.9 bar."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.pressure-ambiguous"


@pytest.mark.parametrize("text", ["60 bar", "150 bar", "400 bar", "1200 bar", "2000 psi", "15 MPa"])
def test_silent_for_usual_pressures(text: str) -> None:
    assert found_in(f"kind: method\noutlet_pressure: {text}\n", RULE) == []


@pytest.mark.parametrize("text", ["15 bar", "40 bar", "3 bar (g)"])
def test_silent_for_low_limits_which_are_no_set_pressures(text: str) -> None:
    assert found_in(f"kind: method\npressure_limits: {{low: {text}}}\n", RULE) == []


def test_silent_for_the_pressure_of_the_air() -> None:
    assert found_in("kind: room\nair_pressure: 950 mbar\n", RULE) == []


def test_silent_where_no_unit_makes_it_usual() -> None:
    assert found_in("kind: method\noutlet_pressure: 3 mbar\n", RULE) == []


@pytest.mark.parametrize(
    ("text", "reading"),
    [("2000 bar", "in psi it would be 138 bar"), ("150 psi", "in bar it would be 150 bar"),
     ("15 bar", "in MPa it would be 150 bar"), ("150 MPa", "in bar it would be 150 bar")],
)  # fmt: skip
def test_both_readings_are_given(text: str, reading: str) -> None:
    (found,) = found_in(f"kind: method\noutlet_pressure: {text}\n", RULE)
    assert found.grade == "fault"
    assert f'"{text}"' in found.message
    assert reading in found.message


def test_the_other_reading_is_never_applied() -> None:
    report = report_on("kind: method\noutlet_pressure: 2000 bar\n", RULE)
    page = report.documents["page.yaml"]
    assert page.model.outlet_pressure is None  # type: ignore[attr-defined]
    assert ("outlet_pressure",) in page.broken
    assert report.unusable


def test_ratings_are_looked_at_too() -> None:
    (found,) = found_in("kind: column\npressure_rating: 5800 bar\n", RULE)
    assert "in psi it would be 400 bar" in found.message  # 5800 x 0.0689476 = 399.9
