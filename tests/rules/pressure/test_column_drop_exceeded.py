"""Drop over the column against what its bed allows."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "pressure.column-drop-exceeded"


def test_silent_for_the_sound_lab() -> None:
    assert findings("", RULE) == []


def test_a_rating_of_the_tube_is_not_used_for_the_bed() -> None:
    report = judged("kind: column\npressure_rating: 400 bar\ndrop_rating: null", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("column.drop_rating",)]


def test_a_high_outlet_pressure_changes_nothing() -> None:
    high = "\n---\nkind: method\noutlet_pressure: 220 bar"
    assert findings("kind: column\ndrop_rating: 260 bar" + high, RULE) == []


def test_a_soft_bed_is_a_fault() -> None:
    [found] = findings("kind: column\ndrop_rating: 80 bar", RULE)
    assert found.grade == "fault"
    assert "its bed allows 80 bar" in found.message
    assert found.remedy.startswith("set the flow to")


def test_a_limit_inside_the_band_is_a_caution() -> None:
    run = judged("", RULE).runs[0].run
    drop = float(run.drop_over(run.plan.analytical_column).max()) / 1e5
    [found] = findings(f"kind: column\ndrop_rating: {drop * 0.95:.1f} bar", RULE)
    assert (found.grade, found.possible) == ("caution", True)
