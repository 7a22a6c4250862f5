"""The return front: dwell volume and hold-up time of the rehearsal."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "gradient.peak-after-return"


def last(time: str, more: str = "") -> str:
    return (
        "kind: method\nexpected_peaks:\n  - {name: first peak, retention_time: 2.5 min, plates: 9000}\n"
        f"  - {{name: last peak, retention_time: {time}, plates: 12000}}\n{more}"
    )


def test_silent_for_a_peak_before_the_front_and_within_its_band() -> None:
    """The fall begins at 6 min, 0.35 min of dwell and 0.4 min of hold-up behind: 6.7 min."""
    assert findings(last("5.5 min"), RULE) == []
    assert findings(last("6.8 min"), RULE) == []


def test_silent_for_an_isocratic_method() -> None:
    flat = "programme: []\nmobile_phase: {modifier_share: 10 % v/v}\n"
    assert findings(last("7.8 min", flat), RULE) == []


def test_silent_where_nothing_leads_back() -> None:
    rows = "programme:\n  - {time: 0 min, modifier_share: 5 % v/v}\n"
    rows += "  - {time: 5 min, modifier_share: 40 % v/v}\n"
    assert findings(last("7.8 min", rows), RULE) == []


def test_a_peak_long_after_the_front_is_a_caution() -> None:
    (found,) = findings(last("7.8 min"), RULE)
    assert found.grade == "caution"
    assert found.at.path == ("expected_peaks", 1, "retention_time")
    assert found.limit is not None and 6.5 < found.limit.value < 6.9
