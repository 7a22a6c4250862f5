"""At most 20 injections between controls, one in the last tenth: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings
from tests.rules.sequence.lines import controls, samples, sequence

RULE = "sequence.qc-unevenly-spread"
QC = controls("lower")


def test_silent_when_they_are_spread() -> None:
    assert findings(sequence(QC, samples(20), QC, samples(20, 21), QC), RULE) == []


def test_silent_without_controls_which_another_rule_counts() -> None:
    assert findings(sequence(samples(40)), RULE) == []


def test_silent_for_a_screening() -> None:
    assert findings(sequence(QC, samples(40), purpose="screening"), RULE) == []


def test_silent_with_a_control_in_the_last_tenth() -> None:
    # 20 samples and a control: 21 injections, the last tenth is two of them.
    assert findings(sequence(QC, samples(18), QC, samples(2, 19)), RULE) == []


def test_twenty_one_without_one() -> None:
    (found,) = findings(sequence(QC, samples(21), QC), RULE)
    assert found.grade == "caution"
    assert "21 injections without a control" in found.message
    # Injections 2 to 22 stand without one; the middle of them is the 12th.
    assert "(2 to 22)" in found.message
    assert "injection 12" in found.remedy
    assert found.limit is not None
    assert found.limit.value == 20


def test_none_in_the_last_tenth() -> None:
    (found,) = findings(sequence(QC, samples(10)), RULE)
    assert "the last control is injection 1, the last sample injection 11" in found.message
