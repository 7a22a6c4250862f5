"""collection.vessel-overflows: volumes by arithmetic from flow, share and time."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "collection.vessel-overflows"


def lab(collector: str, collection: str = "fractions: [{begins: 3 min, ends: 5 min}]") -> str:
    """20 % of 1.5 mL/min throughout: 0.3 mL/min of modifier, 0.6 mL in two minutes."""
    return (
        "kind: method\npurpose: preparative\nprogramme: null\n"
        "mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 20 % v/v}\n"
        f"collection: {{{collection}}}\n---\n"
        f"kind: instrument\ncollector: {{kind: open bed, {collector}}}\n---\n"
        "kind: sequence\nlines:\n  - {kind: sample, sample: racemate, plate: '1', well: A1, "
        "fill: 1.5 mL, count: 20}\n"
    )


def test_silent_where_all_fits() -> None:
    # 20 injections of 0.6 mL are 12 mL
    assert findings(lab("vessels: 1, vessel_capacity: 20 mL"), RULE) == []


def test_silent_without_a_collection() -> None:
    text = lab("vessels: 1, vessel_capacity: 1 mL")
    assert (
        findings(
            text.replace("collection: {fractions: [{begins: 3 min, ends: 5 min}]}\n", ""), RULE
        )
        == []
    )


def test_a_small_vessel_overflows() -> None:
    (found,) = findings(lab("vessels: 1, vessel_capacity: 10 mL"), RULE)
    assert found.grade == "fault"
    assert "0.6 mL per injection, 12 mL in a vessel after 20 injections" in found.message
    assert found.remedy == "change the vessels every 15 injections"  # 9 mL / 0.6 mL


def test_liquid_that_is_added_counts() -> None:
    more = "fractions: [{begins: 3 min, ends: 5 min}], makeup: 0.2 mL/min"
    (found,) = findings(lab("vessels: 1, vessel_capacity: 20 mL", more), RULE)
    assert "1 mL per injection, 20 mL in a vessel" in found.message


def test_too_few_vessels() -> None:
    two = "fractions: [{begins: 2 min, ends: 3 min}, {begins: 4 min, ends: 5 min}]"
    (found,) = findings(lab("vessels: 1, vessel_capacity: 50 mL", two), RULE)
    assert found.message.endswith("collects 2 vessels, 1 are set out")


def test_a_capacity_that_is_not_given_is_asked_for() -> None:
    report = judged(lab("vessels: 4"), RULE)
    assert [item.missing for item in report.not_checked] == [
        ("instrument.collector.vessel_capacity",)
    ]
