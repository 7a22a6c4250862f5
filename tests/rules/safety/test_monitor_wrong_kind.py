"""`safety.monitor-wrong-kind`: an oxygen monitor says nothing of CO2."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "safety.monitor-wrong-kind"
OXYGEN = "kind: room\nmonitors: [{gas: O2, audible: true}]\n"
INSIDE = "---\nkind: supply\nplace: inside\n"


def test_silent_with_both_kinds() -> None:
    both = OXYGEN.replace("[{", "[{gas: CO2, low: true}, {")
    assert findings(both + INSIDE, RULE) == []


def test_silent_where_neither_release_nor_vents_exceed_a_limit() -> None:
    """The sound lab's cylinder stands outside downstream of an excess-flow valve, its vents are ducted."""
    assert findings(OXYGEN, RULE) == []


def test_silent_without_any_monitor() -> None:
    """That is another rule's."""
    assert findings(f"kind: room\nmonitors: []\n{INSIDE}", RULE) == []


def test_stop_with_the_arithmetic() -> None:
    """19.5 % of 20.9 % is reached with 6.7 % displaced: 67 000 ppm, above 40 000 ppm (NIOSH)."""
    [finding] = findings(OXYGEN + INSIDE, RULE)
    assert finding.grade == "stop"
    assert "19.5 %" in finding.message
    assert "6.7 %" in finding.message
    assert "67000 ppm" in finding.message
    assert "40000 ppm" in finding.message


def test_steady_level_above_the_labs_limit_counts_too() -> None:
    """5000 ppm: 29 CFR 1910.1000, set by the lab as its own."""
    vents = "air_changes: 0.1 1/h\noutlets: [{name: vent, of: separator, ducted: false}]\n"
    lab = "---\nkind: lab\npolicy: {exposure_limits: {co2_long: 5000 ppm}}\n"
    assert findings(OXYGEN + vents, RULE) == []
    [finding] = findings(OXYGEN + vents + lab, RULE)
    assert "the vents hold" in finding.message


def test_remedy_adds_a_monitor_and_keeps_the_other() -> None:
    [finding] = findings(OXYGEN + INSIDE, RULE)
    assert finding.remedy.startswith("mount a CO2 monitor low on the wall")


def test_remedy_does_not_trip_the_rule_on_missing_monitors() -> None:
    report = judged(OXYGEN + INSIDE, RULE, "safety.no-co2-monitor")
    assert [finding.rule for finding in report.findings] == [RULE]
