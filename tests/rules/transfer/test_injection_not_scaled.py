"""V2 = V1 (L2 d2^2)/(L1 d1^2) (USP <621>, from memory): x 0.2552 from 4.6 x 250 mm to 3.0 x 150 mm.
Within 15 %: common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import FROM, ISOCRATIC, WIDE

RULE = "transfer.injection-not-scaled"


def test_silent_without_a_source():
    assert findings("kind: method\nflow: 0.5 mL/min\n", RULE) == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(ISOCRATIC + FROM, RULE) == []


def test_scaled_volume_is_silent():
    """10 -> 2.6 uL (common practice, no source)."""
    text = (
        ISOCRATIC
        + "injection: {volume: 2.6 uL}"
        + FROM
        + "injection: {volume: 10 uL}\ncolumn: wide"
    )
    assert findings(text + WIDE, RULE) == []


def test_rescaled_concentration_is_silent():
    text = ISOCRATIC + "injection: {volume: 5 uL}\ntransfer: {concentration_rescaled: true}" + FROM
    assert findings(text + "injection: {volume: 5 uL}\ncolumn: wide" + WIDE, RULE) == []


def test_held_by_the_autosampler_is_silent():
    card = "\n---\nkind: instrument\nautosampler: {lowest_volume: 4 uL}\n"
    text = (
        ISOCRATIC + "injection: {volume: 4 uL}" + FROM + "injection: {volume: 10 uL}\ncolumn: wide"
    )
    assert findings(text + WIDE + card, RULE) == []


def test_held_by_the_part_of_the_loop_that_the_mode_fills_is_silent():
    """Ten microlitres of the source in a loop that is filled by half (arithmetic)."""
    card = "\n---\nkind: instrument\nautosampler: {highest_volume: 10 uL, loop: 10 uL}\n"
    text = ISOCRATIC + "injection: {volume: 5 uL}" + FROM + "injection: {volume: 10 uL}\n"
    assert findings(text + card, RULE) == []


def test_a_kept_volume_is_found_and_its_remedy_tried():
    text = (
        ISOCRATIC + "injection: {volume: 5 uL}" + FROM + "injection: {volume: 5 uL}\ncolumn: wide"
    )
    report = judged(text + WIDE, RULE)
    (found,) = report.findings
    assert found.grade == "caution"
    assert found.limit.value == pytest.approx(5 * 0.2552, abs=0.01)
    assert found.remedy == "inject 1.28 uL"
    assert report.not_checked == []


def test_a_missing_volume_is_not_checked():
    report = judged(ISOCRATIC + "injection: null" + FROM, RULE)
    assert [item.missing for item in report.not_checked] == [("method.injection.volume",)]
