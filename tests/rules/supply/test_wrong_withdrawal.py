"""`supply.wrong-withdrawal`: dip tube against the inlet of the pump."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "supply.wrong-withdrawal"
NO_TUBE = "kind: supply\ndip_tube: false\n"
CONDENSING = "kind: instrument\nco2_pump: {inlet: vapour}\n"


def test_silent_where_the_pump_accepts_both() -> None:
    both = "---\nkind: instrument\nco2_pump: {inlet: both}"
    assert findings(NO_TUBE + both, RULE) == []


def test_silent_for_a_bulk_tank() -> None:
    assert findings(f"{NO_TUBE}withdrawal: bulk", RULE) == []


def test_silent_for_matching_pairs() -> None:
    assert findings("", RULE) == []
    assert findings(f"{NO_TUBE}withdrawal: vapour\n---\n{CONDENSING}", RULE) == []


@pytest.mark.parametrize(
    ("changes", "says", "order"),
    [
        (NO_TUBE, "gives vapour, the CO2 pump takes in liquid", "with dip tube"),
        (CONDENSING, "gives liquid, the CO2 pump takes in vapour", "without dip tube"),
    ],
)
def test_mismatch_is_a_fault_that_says_what_to_order(changes: str, says: str, order: str) -> None:
    [finding] = findings(changes, RULE)
    assert finding.grade == "fault"
    assert says in finding.message
    assert finding.remedy == f"order a cylinder {order}"


def test_not_checked_without_the_inlet() -> None:
    report = judged("kind: instrument\nco2_pump: {inlet: null}", RULE)
    assert [item.missing for item in report.not_checked] == [("instrument.co2_pump.inlet",)]
