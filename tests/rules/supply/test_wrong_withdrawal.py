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
    "supply",
    [
        pytest.param("dip_tube: null", id="liquid is drawn, the tube goes without saying"),
        pytest.param("withdrawal: null", id="a dip tube, the way goes without saying"),
        pytest.param("withdrawal: bulk\ndip_tube: null", id="bulk tank"),
        pytest.param("withdrawal: vapour\ndip_tube: false\nbooster: true", id="booster"),
        pytest.param("withdrawal: vapour\ndip_tube: null\nbooster: true", id="booster, no tube"),
    ],
)
def test_silent_with_a_liquid_inlet(supply: str) -> None:
    report = judged(f"kind: supply\n{supply}", RULE)
    assert report.findings == []
    assert report.not_checked == []


def test_silent_for_vapour_to_a_condensing_pump_that_names_no_tube() -> None:
    report = judged(f"kind: supply\nwithdrawal: vapour\ndip_tube: null\n---\n{CONDENSING}", RULE)
    assert report.findings == []
    assert report.not_checked == []


@pytest.mark.parametrize("tube", ["true", "false", "null"])
def test_vapour_to_a_liquid_inlet_whatever_the_tube(tube: str) -> None:
    [finding] = findings(f"kind: supply\nwithdrawal: vapour\ndip_tube: {tube}", RULE)
    assert finding.grade == "fault"
    assert "gives vapour, the CO2 pump takes in liquid: it would starve" in finding.message
    assert finding.remedy.endswith("order a cylinder with dip tube")
    assert finding.at.path == (("dip_tube",) if tube == "false" else ("withdrawal",))


def test_contradiction_of_the_card_is_told_with_it() -> None:
    [finding] = findings("kind: supply\nwithdrawal: vapour", RULE)
    said = "the card contradicts itself: 'withdrawal' says vapour, 'dip_tube' says true"
    assert said in finding.message
    assert [at.path for at in finding.also] == [("co2_pump", "inlet"), ("dip_tube",)]


def test_no_contradiction_is_told_of_a_card_that_says_one_thing() -> None:
    [finding] = findings("kind: supply\nwithdrawal: vapour\ndip_tube: false", RULE)
    assert "contradicts" not in finding.message


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


def test_not_checked_where_the_card_says_neither() -> None:
    report = judged("kind: supply\nwithdrawal: null\ndip_tube: null", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("supply.dip_tube",)]
