"""The log of injections: counting, against the card's own limit."""

from __future__ import annotations

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "column.used-beyond-logged-injections"
LINES = (
    "---\nkind: sequence\nlines:\n"
    "  - {kind: conditioning, sample: pool, well: A1, count: 5}\n"
    "  - {kind: flush, liquid: methanol, duration: 5 min}\n"
    "  - {kind: sample, sample: x, well: A2, count: 10}\n"
)


def said(log: str) -> list[Finding]:
    return findings(f"kind: column\ninjections: {{{log}}}\n{LINES}", RULE)


def test_silent_up_to_the_limit() -> None:
    assert said("count: 85, limit: 100") == []


def test_a_note_where_the_limit_is_advisory_and_the_last_test_passed() -> None:
    advisory = "count: 95, limit: 100, limit_is_advisory: true"
    assert [f.grade for f in said(f"{advisory}, last_test_passed: true")] == ["note"]
    beyond, failed = said(f"{advisory}, last_test_passed: false")
    assert (beyond.grade, failed.grade) == ("caution", "caution")
    assert "failed its last test" in failed.message
    assert [f.grade for f in said("count: 95, limit: 100, last_test_passed: true")] == ["caution"]


def test_the_line_where_the_count_crosses() -> None:
    (finding,) = said("count: 92, limit: 100")
    assert finding.grade == "caution"
    assert "has seen 92 injections and comes to 107, 7 more than its limit 100" in finding.message
    assert "in line 3" in finding.message
    assert finding.when is not None
    # the 101st of the column is the ninth of the sequence
    assert finding.when.injection == 9
    assert finding.also[0].path == ("lines", 2)
    assert finding.remedy == "change the column before line 3"


def test_a_column_beyond_its_limit_already() -> None:
    (finding,) = said("count: 120, limit: 100")
    assert finding.when is not None and finding.when.injection == 1


def test_the_test_that_is_due() -> None:
    log = "count: 1, limit: 100, last_test: 2026-10-01, test_interval: {}"
    assert said(log.format("60 d")) == []
    (finding,) = said(log.format("30 d"))  # the sound lab begins on 2026-11-24
    assert "tested 54 d ago, the lab allows 30 d" in finding.message


def test_missing_figures_are_not_checked() -> None:
    report = judged(f"kind: column\ninjections: null\n{LINES}", RULE)
    assert report.not_checked[0].missing == ("column.injections",)
    report = judged(f"kind: column\ninjections: {{limit: null}}\n{LINES}", RULE)
    assert report.not_checked[0].missing == ("column.injections.limit",)


def test_a_column_that_failed_its_last_test() -> None:
    (found,) = said("count: 5, limit: 3000, last_test_passed: false")
    assert found.grade == "caution"
    assert "failed its last test" in found.message
    assert said("count: 5, limit: 3000, last_test_passed: true") == []


def test_silent_for_a_failed_column_that_is_under_test() -> None:
    assert said("count: 10, limit: 100, last_test_passed: false, under_test: true") == []


def test_a_failed_test_is_reported_of_a_column_without_a_limit_too() -> None:
    assert [f.grade for f in said("count: 10, last_test_passed: false")] == ["caution"]
