"""Temperature limits of columns: the column card; the usual ones are common practice, no source."""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "column.temperature-exceeded"
OVEN = "kind: method\noven_temperature: {}\n"


def said(column: str, oven: str = "40 degC", *parts: str) -> list[Finding]:
    texts = [f"kind: column\n{column}\n", OVEN.format(oven), *parts]
    return findings("---\n".join(texts), RULE)


def test_silent_and_not_checked_without_a_limit_with_the_usual_one_told() -> None:
    for phase, usual in (
        ("coated polysaccharide", "40 degC to 50 degC"),
        ("bonded silica", "60 degC to 90 degC"),
    ):
        text = f"kind: column\nphase: {phase}\ntemperature_limit: null\n---\n{OVEN}"
        report = judged(text.format("95 degC"), RULE)
        assert report.findings == []
        assert report.not_checked[0].missing == ("column.temperature_limit",)
        assert usual in report.not_checked[0].reason
        assert report.not_checked[0].can_stop


def test_silent_at_the_limit() -> None:
    assert said("temperature_limit: 40 degC") == []
    assert said("phase: coated polysaccharide\ntemperature_limit: 40 degC") == []


@pytest.mark.parametrize(
    ("phase", "grade"),
    [("coated polysaccharide", "stop"), ("immobilised polysaccharide", "fault"),
     ("bonded silica", "fault")],
)  # fmt: skip
def test_class_by_phase(phase: str, grade: str) -> None:
    (finding,) = said(f"phase: {phase}\ntemperature_limit: 35 degC")
    assert finding.grade == grade
    assert "reaches 40 degC, column is rated to 35 degC: 5 K too hot" in finding.message
    assert finding.remedy == "set the oven to 35 degC"


def test_a_limit_for_a_liquid_that_flows_and_for_one_that_does_not() -> None:
    limits = (
        "temperature_limit: 60 degC\ntemperature_limits: [{{temperature: 35 degC, liquids: [{}]}}]"
    )
    (finding,) = said(limits.format("MeOH"))
    assert "35 degC with methanol" in finding.message
    assert finding.at.path == ("temperature_limits", 0, "temperature")
    assert said(limits.format("water")) == []


def test_a_liquid_s_own_higher_limit_counts_where_nothing_else_flows() -> None:
    limits = (
        "temperature_limit: 35 degC\ntemperature_limits: [{temperature: 50 degC, liquids: [MeOH]}]"
    )
    assert said(limits, "45 degC") == []
    ethanol = "kind: sequence\nprevious: {modifier: {liquid: ethanol}}\n"
    assert len(said(limits, "45 degC", ethanol)) == 1


def test_the_hottest_row_of_the_programme() -> None:
    rows = (
        "programme:\n  - {time: 0 min, modifier_share: 5 % v/v}\n"
        "  - {time: 5 min, modifier_share: 40 % v/v, temperature: 65 degC}\n"
    )
    (finding,) = findings(f"kind: method\n{rows}", RULE)
    assert finding.when is not None and finding.when.start == 300.0
    assert finding.also[0].path == ("programme", 1, "temperature")


def test_only_the_tolerance_of_the_oven_is_beyond() -> None:
    oven = "{value: 34 degC, tolerance: 2 degC}"
    (soft,) = said("temperature_limit: 35 degC", oven)
    assert (soft.grade, soft.possible) == ("caution", True)
    (hard,) = said("phase: coated polysaccharide\ntemperature_limit: 35 degC", oven)
    assert (hard.grade, hard.possible) == ("stop", True)
    assert "may reach" in hard.message
