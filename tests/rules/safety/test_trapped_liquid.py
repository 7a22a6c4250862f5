"""`safety.trapped-liquid`: supply lines full of liquid between two shut valves."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.trapped-liquid"


def _line(**fields: str) -> str:
    given = {
        "name": "yard to bench",
        "filled_at": "10 degC",
        "filled_pressure": "60 bar",
        "pressure_rating": "100 bar",
        **fields,
    }
    section = ", ".join(f"{key}: {value}" for key, value in given.items())
    return (
        f"kind: supply\nline_sections: [{{{section}}}]\nline_temperature: null\n"
        "---\nkind: room\nhighest_temperature: 25 degC\n"
    )


def test_silent_with_a_relief_or_disc_below_the_rating() -> None:
    assert findings(_line(relief="90 bar"), RULE) == []


def test_silent_where_a_check_valve_relieves_upstream() -> None:
    assert findings(_line(relieves_upstream="true"), RULE) == []


def test_silent_for_a_line_of_vapour() -> None:
    text = _line().replace("kind: supply", "kind: supply\nwithdrawal: vapour", 1)
    assert findings(text, RULE) == []


@pytest.mark.parametrize(("warmest", "pressure"), [("20", "124 bar"), ("25", "156 bar")])
def test_stop_with_the_pressure_at_the_hottest_room(warmest: str, pressure: str) -> None:
    """Full at 10 degC and 60 bar (Span and Wagner 1996 at constant density, CoolProp 8.0.0)."""
    [finding] = findings(_line().replace("25 degC", f"{warmest} degC"), RULE)
    assert finding.grade == "stop"
    assert f"reaches {pressure}" in finding.message
    assert "rated 100 bar" in finding.message
    assert finding.at.path == ("line_sections", 0)
    assert finding.cautions == ("pressure", "cold")


def test_a_relief_above_the_rating_protects_nothing() -> None:
    [finding] = findings(_line(relief="120 bar"), RULE)
    assert finding.grade == "stop"
    assert "a relief at 120 bar only" in finding.message


def test_note_where_the_walls_stand_it() -> None:
    [finding] = findings(_line(pressure_rating="300 bar"), RULE)
    assert finding.grade == "note"
    assert "margin 144 bar" in finding.message


def test_remedy_is_a_relief_that_was_tried() -> None:
    [finding] = findings(_line(), RULE)
    assert finding.remedy == "fit a relief that opens at 100 bar or below and blows off outdoors"


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ("kind: supply\nline_sections: []", "supply.line_sections"),
        ("kind: room\nhighest_temperature: null", "room.highest_temperature"),
        (_line(pressure_rating="null"), "supply.line_sections[0].pressure_rating"),
        (
            _line(filled_at="null").replace(
                "kind: supply", "kind: supply\nstore_temperature: null", 1
            ),
            "supply.line_sections[0].filled_at",
        ),
    ],
)
def test_not_checked(changes: str, missing: str) -> None:
    report = judged(changes, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [(missing,)]
