"""Injection volumes that broaden.

Worked example (common practice, no source): sigma_v 6.8 uL allows 6.8 sqrt(1.2) = 7.4 uL by width,
a column of 3.0 x 100 mm (0.459 mL) 4.6 uL by volume.
"""

from __future__ import annotations

import math

import pytest

from methodlint.judging.finding import Finding
from methodlint.rehearsal.run.peaks import plug_of_variance, plug_variance
from tests.rules.harness import findings, judged

RULE = "injection.overloads-column-volume"


def said(
    volume: str, diluent: str, method: str = "", column: str = "length: 100 mm"
) -> list[Finding]:
    changes = (
        f"kind: method\ninjection: {{volume: {volume}, mode: metered, diluent: null}}\n{method}\n"
        f"---\nkind: sequence\ndiluent: {diluent}\n---\nkind: column\n{column}\n"
    )
    return findings(changes, RULE)


def test_silent_for_a_weak_diluent_below_the_width_of_the_peak() -> None:
    assert said("8 uL", "heptane") == []
    (strong,) = said("8 uL", "methanol")
    assert "1 % of the hold-up volume with methanol" in strong.message


def test_silent_for_a_start_rich_in_the_same_alcohol() -> None:
    rich = "programme: [{time: 0 min, modifier_share: 25 % v/v}]"
    assert said("8 uL", "methanol", rich) == []


def test_silent_at_2_microlitres_on_a_small_column() -> None:
    assert said("2 uL", "methanol", column="length: 50 mm\ninner_diameter: 2.1 mm") == []


def test_one_percent_of_the_hold_up_volume() -> None:
    (finding,) = said("5 uL", "methanol")
    assert finding.grade == "caution"
    assert finding.limit is not None
    # 1 % of 0.65 pi/4 3.0^2 100 mm3
    assert finding.limit.value == pytest.approx(0.65 * math.pi / 4 * 9.0 * 100.0 * 0.01, rel=1e-3)
    assert said("4.5 uL", "methanol") == []
    assert finding.remedy == "inject 4.5 uL"


def test_the_width_of_the_first_peak_counts_for_every_diluent() -> None:
    narrow = "expected_peaks: [{name: early, retention_time: 0.7 min, width: 1.2 s}]"
    (finding,) = said("20 uL", "heptane", narrow)
    assert "by the width of 'early'" in finding.message
    assert "with n-heptane" not in finding.message
    assert finding.limit is not None
    # sigma_v = 1.2 s / 4 x the flow in the column, near the set 25 uL/s: 0.3 x 25 x sqrt(1.2)
    assert finding.limit.value == pytest.approx(0.3 * 25.0 * math.sqrt(1.2), rel=0.35)


def test_without_peaks_the_width_is_not_checked_and_the_column_still_is() -> None:
    report = judged(
        "kind: method\nexpected_peaks: null\ninjection: {volume: 9 uL, mode: metered}\n"
        "---\nkind: sequence\ndiluent: methanol\n",
        RULE,
    )
    assert len(report.findings) == 1
    assert report.not_checked[0].missing == ("method.expected_peaks[].retention_time",)


def test_the_worked_example_by_hand() -> None:
    assert plug_of_variance(0.1 * 6.8**2) == pytest.approx(7.4, abs=0.06)
    assert plug_variance(plug_of_variance(5.0)) == pytest.approx(5.0)
