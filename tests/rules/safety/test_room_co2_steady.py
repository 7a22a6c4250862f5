"""`safety.room-co2-steady`: vented CO2 against the lab's limit, by day and by night."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.room-co2-steady"

# 8 h: 5000 ppm (29 CFR 1910.1000, ACGIH, EU, EH40); 15 min: 15 000 ppm (EH40), secondary pages.
LIMITS = """
---
kind: lab
policy: {exposure_limits: {jurisdiction: house rule, co2_long: 5000 ppm, co2_short: 15000 ppm}}
"""
OPEN = """
kind: room
volume: 28 m3
air_changes: 0.2 1/h
outlets:
  - {name: separator, of: separator, ducted: false}
"""


def test_silent_where_the_vent_is_ducted() -> None:
    assert findings(OPEN.replace("ducted: false", "ducted: true") + LIMITS, RULE) == []


def test_silent_with_enough_fresh_air() -> None:
    """1.4 g/min into 28 m3 x 6/h are 270 ppm more, worked by hand."""
    assert findings(OPEN.replace("0.2 1/h", "6 1/h") + LIMITS, RULE) == []


def test_stop_above_the_limit_with_figures() -> None:
    """1.46 g/min / 1.839 g/L x 60 / (28 000 L x 0.2/h) = 8500 ppm and 420 outdoors; by hand."""
    [finding] = findings(OPEN + LIMITS, RULE)
    assert finding.grade == "stop"
    assert finding.found is not None
    assert finding.found.value == pytest.approx(8900, rel=0.03)
    assert "5000 ppm" in finding.message
    assert "house rule" in finding.message
    assert "margin -" in finding.message
    assert finding.at.path == ("air_changes",)
    assert finding.cautions == ("asphyxiation",)


def test_caution_above_half() -> None:
    [finding] = findings(OPEN.replace("0.2 1/h", "0.5 1/h") + LIMITS, RULE)
    assert finding.grade == "caution"


def test_other_instruments_count() -> None:
    """60 g/min into 45 m3 with 2/h: 21 750 ppm (worked, Span and Wagner gas density)."""
    room = (
        "kind: room\nair_changes: 2 1/h\n"
        "other_vents:\n  - {instrument: bench-p, mass_flow: 60 g/min}\n"
    )
    [finding] = findings(room + LIMITS, RULE)
    assert finding.found is not None
    assert finding.found.value == pytest.approx(21_750 + 420, rel=0.01)


def test_night_counts_when_the_sequence_runs_into_it() -> None:
    room = OPEN.replace("0.2 1/h", "6 1/h") + "air_changes_at_night: 0.2 1/h\n"
    late = "---\nkind: sequence\nbegins: 2026-11-24T16:00"
    assert findings(f"{room}{LIMITS}", RULE) == []
    [finding] = findings(f"{room}{LIMITS}{late}", RULE)
    assert finding.at.path == ("air_changes_at_night",)
    assert "outside staffed hours (2026-11-24 18:00" in finding.message


def test_fresh_air_is_never_assumed() -> None:
    report = judged(OPEN.replace("0.2 1/h", "null") + LIMITS, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("room.air_changes",)]


def test_no_limit_is_not_a_pass() -> None:
    """Limits belong to a jurisdiction: none is taken for everybody."""
    report = judged(OPEN, RULE)
    assert report.findings == []
    [item] = report.not_checked
    assert item.missing == ("lab.policy.exposure_limits.co2_long",)
    assert "ppm" in item.reason


def test_remedy_leads_the_vent_outdoors_and_gives_both_figures() -> None:
    [finding] = findings(OPEN + LIMITS, RULE)
    assert finding.remedy.startswith("lead the vent of separator outdoors")
    assert "1/h" in finding.remedy
    assert "g/min" in finding.remedy


@pytest.mark.parametrize(("limit", "grade"), [("15000 ppm", "stop"), ("30000 ppm", "caution")])
def test_fifteen_minute_value_is_the_labs_own(limit: str, grade: str) -> None:
    """15 000 ppm in EH40, 30 000 ppm with ACGIH and NIOSH (secondary pages): both can be set.

    1.46 g/min into 28 m3 with 0.08/h settle at 21 700 ppm; worked by hand.
    """
    lab = f"---\nkind: lab\npolicy: {{exposure_limits: {{co2_short: {limit}}}}}"
    [finding] = findings(OPEN.replace("0.2 1/h", "0.08 1/h") + lab, RULE)
    assert finding.grade == grade


def test_no_volume_is_asked_for_where_the_vent_is_ducted() -> None:
    assert judged("kind: room\nvolume: null", RULE).not_checked == []


def test_the_own_instrument_among_the_vents_of_the_room_is_not_counted_twice() -> None:
    """One card serves the whole room; with its own vents ducted nothing of it stays there."""
    vents = "kind: room\nair_changes: 2 1/h\nother_vents:\n"
    vents += "  - {instrument: NAME, mass_flow: 60 g/min}\n"
    assert findings(vents.replace("NAME", "instrument") + LIMITS, RULE) == []
    assert len(findings(vents.replace("NAME", "bench-p") + LIMITS, RULE)) == 1
    # Where nothing comes into the room, nothing is asked for either.
    for missing in ("2 1/h", "null"):
        report = judged(vents.replace("NAME", "instrument").replace("2 1/h", missing), RULE)
        assert report.not_checked == []
