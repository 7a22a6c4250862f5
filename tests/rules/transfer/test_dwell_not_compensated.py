"""The initial hold or the delay of the injection makes up for a difference of dwell volumes over the
flow (arithmetic). A tenth of the hold-up time is allowed: common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import FROM, FROM_GRADIENT, GRADIENT, ISOCRATIC, WIDE, programme

RULE = "transfer.dwell-not-compensated"
SLOW = "\n---\nkind: instrument\nx-name: slow\ndwell_volume: 1.08 mL\n"


def test_silent_on_isocratic_methods():
    text = ISOCRATIC + "run_length: 3 min" + FROM + "runs_on: [slow]\ncolumn: wide" + WIDE + SLOW
    assert findings(text, RULE) == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(GRADIENT + FROM_GRADIENT, RULE) == []


def test_silent_without_a_source():
    assert findings("kind: method\n" + programme((0, 5), (1, 40)), RULE) == []


def test_a_small_difference_is_silent():
    """A tenth of the hold-up time of about 0.4 min is 0.04 min, or 0.06 mL at 1.5 mL/min."""
    near = SLOW.replace("1.08 mL", "0.56 mL")
    assert findings(GRADIENT + FROM_GRADIENT + "runs_on: [slow]\n" + near, RULE) == []


def test_a_dwell_not_made_up_for_is_found():
    """(1.08 - 0.52) mL / 1.5 mL/min = 0.373 min (arithmetic)."""
    report = judged(GRADIENT + FROM_GRADIENT + "runs_on: [slow]\n" + SLOW, RULE)
    (found,) = report.findings
    assert found.grade == "fault"
    assert found.limit.value == pytest.approx(0.373, abs=0.004)
    assert "0.37" in found.remedy
    assert report.not_checked == []


def test_the_hold_that_makes_up_for_it_is_silent():
    rows = programme((0, 5), (0.37, 5), (5.37, 40), (6.37, 40), (6.87, 5))
    assert findings(GRADIENT + rows + FROM_GRADIENT + "runs_on: [slow]\n" + SLOW, RULE) == []


def test_a_negative_hold_names_the_mixer_or_the_delay():
    quick = "\n---\nkind: method\nx-name: source\n"
    here = "\n---\nkind: instrument\ndwell_volume: 1.08 mL\n"
    there = "\n---\nkind: instrument\nx-name: quick\n"
    text = GRADIENT + quick + "runs_on: [quick]\n" + there + here
    (found,) = findings(text, RULE)
    assert "smaller mixer" in found.remedy
    (found,) = findings(text + "autosampler: {injects_after_start: true}\n", RULE)
    assert "inject 0.37" in found.remedy


def test_the_delay_that_makes_up_for_it_is_silent():
    here = (
        "\n---\nkind: instrument\ndwell_volume: 1.08 mL\nautosampler: {injects_after_start: true}\n"
    )
    text = GRADIENT + "injection: {after_start: 0.37 min}" + FROM_GRADIENT + "runs_on: [quick]\n"
    assert findings(text + "\n---\nkind: instrument\nx-name: quick\n" + here, RULE) == []
