"""Variances of independent contributions add up (Sternberg, Adv. Chromatogr. 2, 205, 1966, from memory);
the shares that count: common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import FROM_GRADIENT, GRADIENT, REGULATED

RULE = "transfer.extra-column-variance"


def sigma(value: str) -> str:
    return f"\n---\nkind: instrument\nextra_column_sigma: {value}\n"


def test_silent_without_a_source():
    report = judged("kind: method\n---\nkind: instrument\nextra_column_sigma: 40 uL\n", RULE)
    assert report.findings == []
    assert report.not_checked == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(GRADIENT + FROM_GRADIENT + REGULATED, RULE) == []


def test_well_retained_peaks_are_silent():
    """k of 5 and more: hold-up time about 0.45 min, so 2.5 min is k = 4.5 and 4 min k = 8."""
    late = "expected_peaks:\n  - {name: late, retention_time: 4.0 min, plates: 9000}\n"
    assert findings(GRADIENT + late + FROM_GRADIENT + sigma("60 uL"), RULE) == []


@pytest.mark.parametrize(
    ("uL", "grade"), [("4 uL", None), ("13 uL", "caution"), ("20 uL", "fault")]
)
def test_plates_lost_outside(uL, grade):
    early = "expected_peaks:\n  - {name: early, retention_time: 1.5 min, plates: 9000}\n"
    found = findings(GRADIENT + early + FROM_GRADIENT + sigma(uL), RULE)
    assert [finding.grade for finding in found] == ([grade] if grade else [])


def test_no_peak_is_not_checked():
    report = judged(GRADIENT + "expected_peaks: []" + FROM_GRADIENT, RULE)
    assert report.not_checked[0].missing == ("method.expected_peaks",)


def test_the_remedy_is_a_third_of_the_standard_deviation_of_the_peak():
    """1/9 of the variance of the peak makes a tenth of the sum (arithmetic of variances)."""
    early = "expected_peaks:\n  - {name: early, retention_time: 1.5 min, plates: 9000}\n"
    (found,) = findings(GRADIENT + early + FROM_GRADIENT + sigma("13 uL"), RULE)
    assert "169 uL2 against" in found.message  # 13 x 13
    own = float(found.message.partition("against ")[2].partition(" uL2")[0])
    assert found.found.value == pytest.approx(100 * 169 / (169 + own), rel=0.01)
    assert float(found.remedy.split()[8]) == pytest.approx(own**0.5 / 3, rel=0.01)
