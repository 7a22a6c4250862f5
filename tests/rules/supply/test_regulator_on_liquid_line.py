"""`supply.regulator-on-liquid-line`; common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "supply.regulator-on-liquid-line"
REGULATED = "kind: supply\nregulator_in_liquid_line: true\n"


def test_silent_for_gas() -> None:
    assert findings(f"{REGULATED}withdrawal: vapour", RULE) == []


def test_silent_for_bulk_with_a_booster() -> None:
    assert findings(f"{REGULATED}withdrawal: bulk\nbooster: true", RULE) == []


def test_bulk_without_a_booster_fires() -> None:
    assert len(findings(f"{REGULATED}withdrawal: bulk", RULE)) == 1


def test_fires_and_says_what_to_put_there() -> None:
    [finding] = findings(REGULATED, RULE)
    assert finding.grade == "fault"
    assert "snow" in finding.message
    assert finding.remedy == "replace the regulator by a filter, a shut-off valve and a relief"
    assert finding.cautions == ("cold", "pressure")


def test_not_checked_if_nobody_says() -> None:
    report = judged("kind: supply\nregulator_in_liquid_line: null", RULE)
    assert [item.missing for item in report.not_checked] == [("supply.regulator_in_liquid_line",)]
