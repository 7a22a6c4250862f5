"""`safety.locked-in-liquid`: parked columns and closed sections of the instrument."""

from __future__ import annotations

import pytest

from methodlint.checking.check import judge_documents
from methodlint.documents.library import MemoryLibrary
from methodlint.judging.finding import Finding
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import document, lab_with
from tests.rules.harness import findings, judged

RULE = "safety.locked-in-liquid"


def _section(**fields: str) -> str:
    given = {
        "name": "loop",
        "holds": "CO2",
        "closed_at": "10 degC",
        "closed_pressure": "60 bar",
        "warmest": "25 degC",
        "pressure_rating": "150 bar",
        **fields,
    }
    section = ", ".join(f"{key}: {value}" for key, value in given.items())
    return f"kind: instrument\nclosed_sections: [{{{section}}}]\n"


def _two_columns(parked: str, first: str, second: str) -> list[Finding]:
    """Judge a sequence of two methods, each with a column of its own, in this oven order."""
    documents = lab_with(f"kind: instrument\nparked_columns: {parked}")
    read = documents["method"].read
    held = {(kind, kind): loaded for kind, loaded in documents.items()}
    for name, oven in (("first", first), ("second", second)):
        column = {**documents["column"].data, "title": name}
        method = {**documents["method"].data, "column": f"col-{name}", "oven_temperature": oven}
        held["column", f"col-{name}"] = document("column", column, read, f"col-{name}")
        held["method", name] = document("method", method, read, name)
    lines = [
        {"kind": "sample", "sample": "a", "plate": "1", "well": "A1", "method": "first"},
        {"kind": "sample", "sample": "b", "plate": "1", "well": "A2", "method": "second"},
    ]
    sequence = {**documents["sequence"].data, "lines": lines}
    held["sequence", "sequence"] = document("sequence", sequence, read)
    rules = tuple(rule for rule in built_in_rules() if rule.id == RULE)
    library = MemoryLibrary(held, lab=documents["lab"])
    report = judge_documents(library, [held["sequence", "sequence"]], rules)
    assert not report.failed, report.failed[0].trace
    _two_columns.not_checked = [item.missing for item in report.not_checked]  # type: ignore[attr-defined]
    return report.findings


def test_silent_where_columns_are_parked_vented() -> None:
    assert _two_columns("vented", "10 degC", "60 degC") == []


def test_silent_with_temperatures_downward() -> None:
    assert _two_columns("closed", "60 degC", "40 degC") == []


def test_silent_for_one_column() -> None:
    assert findings("kind: instrument\nparked_columns: closed", RULE) == []


def test_silent_where_a_section_has_its_relief() -> None:
    assert findings(_section(relief="140 bar"), RULE) == []


def test_silent_where_the_walls_stand_it() -> None:
    """156 bar at 25 degC (Span and Wagner 1996, CoolProp 8.0.0)."""
    assert findings(_section(pressure_rating="160 bar"), RULE) == []


def test_parked_column_warmed_by_the_next_method_is_a_stop() -> None:
    """A dense liquid gains several bar for every kelvin: 55 K are far beyond 400 bar."""
    [finding] = _two_columns("closed", "5 degC", "60 degC")
    assert finding.grade == "stop"
    assert "col-first is parked closed" in finding.message
    assert "by line 2 it has warmed to 60 degC" in finding.message
    assert finding.at.path == ("parked_columns",)
    assert "falling oven temperature" in finding.remedy
    assert "no single change" not in finding.remedy


def test_parked_column_is_asked_about() -> None:
    assert _two_columns("null", "5 degC", "60 degC") == []
    assert _two_columns.not_checked == [("instrument.parked_columns",)]  # type: ignore[attr-defined]


def test_section_of_co2_is_a_stop() -> None:
    """Full at 10 degC and 60 bar: 156 bar at 25 degC (Span and Wagner 1996, CoolProp 8.0.0)."""
    [finding] = findings(_section(), RULE)
    assert finding.grade == "stop"
    assert "reaches 156 bar, rated 150 bar" in finding.message
    assert finding.cautions == ("pressure",)
    assert "relief that opens at 150 bar" in finding.remedy


def test_section_of_modifier_is_warmed_as_liquid() -> None:
    """Methanol gains about 10 bar for every kelvin (handbook values, from memory)."""
    [finding] = findings(_section(holds="modifier", closed_at="5 degC"), RULE)
    assert finding.found is not None
    assert finding.found.value == pytest.approx(60 + 10 * 20, rel=0.2)


def test_relief_above_the_rating_protects_nothing() -> None:
    assert len(findings(_section(relief="200 bar"), RULE)) == 1


def test_room_counts_where_a_section_names_no_warmest_place() -> None:
    """The sound lab's room reaches 26 degC."""
    [finding] = findings(_section(warmest="null"), RULE)
    assert "warmed to 26 degC" in finding.message


def test_not_checked_without_a_rating() -> None:
    report = judged(_section(pressure_rating="null"), RULE)
    assert [item.missing for item in report.not_checked] == [
        ("instrument.closed_sections[0].pressure_rating",)
    ]


def test_supply_lines_are_another_rules() -> None:
    line = "{name: line, pressure_rating: 60 bar, filled_at: 0 degC}"
    assert findings(f"kind: supply\nline_sections: [{line}]", RULE) == []


def test_no_clock_is_asked_for_where_nothing_can_be_locked_in() -> None:
    report = judged("kind: instrument\nco2_pump: {head_temperature: null}", RULE)
    assert report.not_checked == []


def test_a_trip_of_the_pumps_is_no_guard_against_liquid_that_is_shut_in() -> None:
    """A trip stops pumps; what two closed valves hold goes on expanding with the room's heat."""
    tripped = _section() + "trips: {high_pressure: 100 bar}\n"
    assert [one.grade for one in findings(tripped, RULE)] == ["stop"]
