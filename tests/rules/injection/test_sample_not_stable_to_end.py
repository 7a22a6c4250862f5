"""Samples on the tray.

Boiling points of dichloromethane 40 degC and of
2-propanol 82 degC: CRC Handbook of Chemistry and Physics. 12 hours: common practice, no source.
The sound lab begins at 09:00, equilibrates 10 min and takes 11.7 min for an injection.
"""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "injection.sample-not-stable-to-end"
LINES = (
    "lines:\n"
    "  - {kind: blank, sample: b, plate: 1, well: A1}\n"
    "  - {kind: sample, sample: early, plate: 1, well: D1}\n"
    "  - {kind: sample, sample: late, plate: 1, well: D2, count: 60}\n"
)


def said(text: str, *more: str) -> list[Finding]:
    return findings("---\n".join([f"kind: sequence\n{text}\n{LINES}", *more]), RULE)


def test_silent_while_stable_to_the_end() -> None:
    assert said("prepared: 2026-11-24T08:00\nstability: 24 h") == []


def test_silent_for_blanks_that_hold_nothing_that_ages() -> None:
    blanks = "lines: [{kind: blank, sample: b, plate: 1, well: A1}]"
    assert findings(f"kind: sequence\nstability: 1 min\n{blanks}", RULE) == []


def test_a_line_prepared_later_counts_from_its_own_moment() -> None:
    lines = (
        'lines:\n  - {kind: sample, sample: x, plate: 1, well: D1, prepared: "2026-11-24T08:55"}\n'
    )
    text = f"kind: sequence\nprepared: 2026-11-20T08:00\nstability: 1 h\n{lines}"
    assert findings(text, RULE) == []
    assert len(findings(text.replace(', prepared: "2026-11-24T08:55"', ""), RULE)) == 1


def test_the_line_and_clock_time_where_it_lapses() -> None:
    (finding,) = said("prepared: 2026-11-24T08:00\nstability: 10 h")
    assert finding.grade == "caution"
    assert finding.at.path == ("lines", 2)
    assert "'late' in line 3" in finding.message
    assert "late are 1 of 2 lines" in finding.message
    # 10 min + 2 lines + 59 further injections of 11.7 min: 723.7 min after 09:00
    assert "2026-11-24 21:03" in finding.message
    assert finding.found is not None
    assert finding.found.value == pytest.approx((10 + 61 * 11.7) / 60.0 + 1.0, abs=0.02)
    assert "before line 3" in finding.remedy


def test_silent_where_the_diluent_freezes_which_another_rule_tells() -> None:
    other = "solvent.freezes-in-cold-place"
    found = findings(f"kind: sequence\ndiluent: DMSO\n{LINES}", RULE, other)
    assert [finding.rule for finding in found] == [other]


def test_a_blend_that_parts_on_the_tray() -> None:
    blend = "{{liquids: [{{liquid: {}, share: 50 %}}, {{liquid: heptane, share: 50 %}}]}}"
    (finding,) = said(f"diluent: {blend.format('methanol')}")
    assert "methanol + n-heptane part at the tray's 10 degC" in finding.message
    assert said(f"diluent: {blend.format('2-propanol')}") == []


def test_a_volatile_diluent_leaves_a_vial_pierced_for_twelve_hours() -> None:
    many = LINES.replace("count: 60", "count: 64")
    text = "kind: sequence\nprepared: 2026-11-24T08:00\nstability: 48 h\n"
    assert findings(f"{text}diluent: 2-propanol\n{many}", RULE) == []
    (finding,) = findings(f"{text}diluent: DCM\n{many}", RULE)
    assert finding.grade == "caution"
    assert "pierced for 12.3 h, dichloromethane leaves it" in finding.message
    assert findings(f"{text}diluent: DCM\n{many.replace('count: 64', 'count: 50')}", RULE) == []


def test_a_note_where_an_internal_standard_corrects_the_loss() -> None:
    many = LINES.replace("count: 60", "count: 64")
    (finding,) = findings(f"kind: sequence\ninternal_standard: true\ndiluent: DCM\n{many}", RULE)
    assert finding.grade == "note"


@pytest.mark.parametrize("figure", ["prepared", "stability"])
def test_missing_figures_are_not_checked(figure: str) -> None:
    report = judged(f"kind: sequence\n{figure}: null\n", RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == (f"sequence.{figure}",)
