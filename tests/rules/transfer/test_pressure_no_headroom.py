"""Nine tenths of what a part is rated to: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import FROM_GRADIENT, GRADIENT, REGULATED

RULE = "transfer.pressure-no-headroom"
OTHER = "\n---\nkind: instrument\nx-name: other\n"
WEAK = "\n---\nkind: instrument\nco2_pump: {pressure_rating: 310 bar, envelope: [{flow: 5 mL/min, pressure: 310 bar}]}\n"


def test_silent_without_a_source():
    report = judged("kind: method\n---\nkind: instrument\nextra_column_sigma: 40 uL\n", RULE)
    assert report.findings == []
    assert report.not_checked == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(GRADIENT + FROM_GRADIENT + REGULATED, RULE) == []


def test_headroom_is_silent_where_the_source_ran_there():
    weak = WEAK.replace("kind: instrument\n", "kind: instrument\nx-name: other\n")
    text = GRADIENT + FROM_GRADIENT + "runs_on: [other]\n" + weak + WEAK.replace("310", "320")
    assert findings(text, RULE) == []


def test_no_headroom_is_found_and_its_remedy_tried():
    text = GRADIENT + FROM_GRADIENT + "runs_on: [other]\n" + OTHER + WEAK
    report = judged(text, RULE)
    (found,) = report.findings
    assert found.grade == "fault"
    assert found.found.value > 0.9 * 310
    assert "multiply all times by" in found.remedy
    assert "pressure" in found.cautions
    assert report.not_checked == []


def test_the_smallest_change_of_flow_that_is_enough_is_offered():
    """The upper end of the band comes within the rating; nine tenths alone would take a twentieth."""
    worst = float(judged("", RULE).runs[0].run.pump_pressure.max()) / 1e5
    card = WEAK.replace("310", f"{worst / 0.9 / 1.02:.1f}")
    (found,) = findings(GRADIENT + FROM_GRADIENT + "runs_on: [other]\n" + OTHER + card, RULE)
    assert found.remedy == "set the flow to 1.275 mL/min and multiply all times by 1.18"
