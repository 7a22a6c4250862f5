"""Columns and ovens; 30 mm for fittings: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "column.does-not-fit-oven"


def oven(text: str) -> str:
    return f"kind: instrument\noven: {{{text}}}\n"


def test_silent_for_a_jacket_outside_the_oven() -> None:
    assert findings(oven("length: 100 mm, external_jacket: true"), RULE) == []
    assert len(findings(oven("length: 100 mm"), RULE)) == 1


def test_silent_at_exactly_the_length() -> None:
    assert findings(oven("length: 180 mm"), RULE) == []  # 150 mm + 30 mm


SERIES = "kind: method\ncolumn: [column, column]\n---\n"


def test_silent_for_two_columns_in_series_that_lie_side_by_side() -> None:
    """150 mm beside another of 150 mm (common practice: a tube joins them)."""
    assert findings(SERIES + oven("length: 180 mm"), RULE) == []
    assert len(findings(SERIES + oven("length: 179 mm"), RULE)) == 1


def test_a_guard_sits_on_its_column() -> None:
    """20 mm + 20 mm and 30 mm for fittings are 70 mm (arithmetic)."""
    guards = SERIES + "kind: column\nlength: 20 mm\n---\n"
    assert findings(guards + oven("length: 70 mm"), RULE) == []
    (found,) = findings(guards + oven("length: 65 mm"), RULE)
    assert "5 mm too long" in found.message


def test_too_long() -> None:
    (finding,) = findings(oven("length: 170 mm"), RULE)
    assert finding.grade == "fault"
    assert "150 mm and 30 mm for fittings need 180 mm, the oven takes 170 mm: 10 mm too long" in (
        finding.message
    )
    assert "up to 140 mm" in finding.remedy


def test_missing_lengths_are_not_checked() -> None:
    report = judged(oven("length: null"), RULE)
    assert report.not_checked[0].missing == ("instrument.oven.length",)
