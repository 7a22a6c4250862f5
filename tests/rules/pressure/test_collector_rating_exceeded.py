"""pressure.collector-rating-exceeded: Perry's Chemical Engineers' Handbook, section 6."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "pressure.collector-rating-exceeded"


def card(text: str) -> str:
    return f"kind: instrument\ncollector: {{{text}}}\n"


def test_silent_with_a_wide_line() -> None:
    wide = "kind: cyclone, pressure_rating: 6 bar, vent_length: 4 m, vent_bore: 12 mm"
    assert findings(card(wide), RULE) == []


def test_silent_for_an_open_bed_and_without_a_collector() -> None:
    assert judged(card("kind: open bed, vessels: 6"), RULE).not_checked == []
    assert judged("kind: instrument\n", RULE).not_checked == []


def test_a_narrow_line_bursts_a_weak_vessel() -> None:
    narrow = "kind: cyclone, pressure_rating: 1.1 bar, vent_length: 4 m, vent_bore: 0.5 mm"
    (found,) = findings(card(narrow), RULE)
    assert found.grade == "stop"
    assert "it withstands 1.1 bar" in found.message
    assert "pressure" in found.cautions


def test_a_rating_that_is_not_given_stops_the_clearance() -> None:
    report = judged(card("kind: cyclone, vent_length: 4 m, vent_bore: 12 mm"), RULE)
    assert [item.missing for item in report.not_checked] == [
        ("instrument.collector.pressure_rating",)
    ]
    assert report.verdict == "run with care"
