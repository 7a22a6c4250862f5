"""Qualification of instrument and balance: dates of the card against the end of the sequence."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "sequence.qualification-due"


def lab(item: str, purpose: str = "regulated") -> str:
    return (
        f"kind: instrument\nqualifications: [{{{item}}}]\n---\n"
        f"kind: sequence\npurpose: {purpose}\nbegins: 2026-11-24T09:00\n"
    )


def test_silent_on_the_last_day_and_without_dates() -> None:
    assert findings(lab("of: oven, due: 2026-11-24"), RULE) == []
    assert findings(lab("of: balance"), RULE) == []


def test_silent_in_research() -> None:
    assert findings(lab("of: oven, due: 2026-10-01", "research"), RULE) == []


@pytest.mark.parametrize(
    ("item", "says"),
    [
        ("of: pumps, due: 2026-11-20", "qualification was due on 2026-11-20, 4 d before the end"),
        ("of: oven, done: 2025-10-02, due: 2026-10-02", "qualification of 2025-10-02 was due on"),
        ("of: wavelength, passed: false, due: 2027-11-20", "the last qualification failed"),
    ],
)
def test_a_part_out_of_qualification_is_a_fault(item: str, says: str) -> None:
    (found,) = findings(lab(item), RULE)
    assert found.grade == "fault"
    assert says in found.message
