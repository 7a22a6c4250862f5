"""supply.recycled-carries-over: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "supply.recycled-carries-over"


def test_silent_for_clean_and_for_fresh_co2() -> None:
    clean = "kind: supply\nrecycled: {modifier_share: 0.2 % v/v, water: 20 ppm}\n"
    assert findings(clean, RULE) == []
    assert judged("kind: supply\n", RULE).not_checked == []


def test_modifier_that_comes_back() -> None:
    (found,) = findings("kind: supply\nrecycled: {modifier_share: 2 % v/v, water: 20 ppm}\n", RULE)
    assert (found.grade, found.at.path) == ("caution", ("recycled", "modifier_share"))
    assert found.limit is not None and found.limit.value == 0.5


def test_water_that_comes_back() -> None:
    text = "kind: supply\nrecycled: {modifier_share: 0.1 % v/v, water: 400 ppm}\n"
    (found,) = findings(text, RULE)
    assert found.at.path == ("recycled", "water")


def test_what_was_not_measured_is_asked_for() -> None:
    report = judged("kind: supply\nrecycled: {modifier_share: 0.1 % v/v}\n", RULE)
    assert [item.missing for item in report.not_checked] == [("supply.recycled.water",)]
