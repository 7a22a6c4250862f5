"""The needle and the bottom of the vessel; 2 mm above it: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "injection.needle-reaches-bottom"


def sampler(text: str) -> str:
    return f"kind: instrument\nautosampler: {{{text}}}"


def test_silent_where_the_bottom_is_sensed() -> None:
    assert findings(sampler("needle_depth: 40 mm, bottom_sensing: true"), RULE) == []
    assert len(findings(sampler("needle_depth: 40 mm"), RULE)) == 1


def test_silent_at_two_millimetres() -> None:
    assert findings(sampler("needle_depth: 28 mm"), RULE) == []  # the vial is 30 mm deep


def test_silent_for_vessels_that_nobody_uses() -> None:
    vessels = "{name: vial rack, rows: 6, columns: 9, depth: 30 mm}, {name: shallow, depth: 9 mm}"
    assert findings(sampler(f"vessels: [{vessels}]"), RULE) == []


def test_too_deep_is_a_stop_with_a_depth_that_passes() -> None:
    (finding,) = findings(sampler("needle_depth: 29 mm"), RULE)
    assert finding.grade == "stop"
    assert (
        "29 mm deep, 'vial rack' is 30 mm deep and allows 28 mm: 1 mm too deep" in finding.message
    )
    assert finding.remedy == "set the needle to 28 mm"
    assert findings(sampler("needle_depth: 28 mm"), RULE) == []


def test_an_insert_is_shallower_than_its_rack() -> None:
    vessels = "{name: vial rack, rows: 6, columns: 9, depth: 30 mm}, {name: insert, depth: 22 mm}"
    changes = (
        "kind: sequence\nlines: [{kind: sample, sample: x, well: A1, vessel: insert}]\n---\n"
        + sampler(f"vessels: [{vessels}]")
    )
    (finding,) = findings(changes, RULE)
    assert "'insert' is 22 mm deep" in finding.message
    assert finding.remedy == "set the needle to 20 mm"


def test_the_shallowest_vessel_decides() -> None:
    vessels = "{name: vial rack, rows: 6, columns: 9, depth: 27 mm}, {name: insert, depth: 22 mm}"
    changes = (
        "kind: sequence\nlines:\n  - {kind: sample, sample: x, well: A1, vessel: insert}\n"
        "  - {kind: sample, sample: y, well: A2}\n---\n" + sampler(f"vessels: [{vessels}]")
    )
    (finding,) = findings(changes, RULE)
    assert finding.remedy == "set the needle to 20 mm"


def test_a_cover_that_cannot_be_pierced() -> None:
    vessel = "{name: vial rack, rows: 6, columns: 9, depth: 30 mm, pierceable: false}"
    (finding,) = findings(sampler(f"vessels: [{vessel}]"), RULE)
    assert finding.grade == "stop"
    assert "cannot be pierced" in finding.message


def test_a_missing_depth_is_not_checked_as_something_that_can_stop() -> None:
    report = judged(sampler("vessels: [{name: vial rack, rows: 6, columns: 9}]"), RULE)
    assert "depth of 'vial rack'" in report.not_checked[0].missing[0]
    assert report.not_checked[0].can_stop
    report = judged(sampler("needle_depth: null"), RULE)
    assert report.not_checked[0].missing == ("instrument.autosampler.needle_depth",)


def test_a_vessel_shallower_than_the_clearance_allows_no_depth_at_all() -> None:
    vessel = "{name: vial rack, rows: 6, columns: 9, depth: 1.5 mm}"
    (finding,) = findings(sampler(f"vessels: [{vessel}]"), RULE)
    assert finding.remedy.endswith("set the needle to 0 mm")
