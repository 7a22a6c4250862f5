"""A first row ten times too high: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "gradient.starts-above-ramp"


def rows(*shares: int, reason: str = "", peaks: str = "[]") -> str:
    times = (0, 5, 6, 7)
    lines = [
        f"  - {{time: {time} min, modifier_share: {share} % v/v{reason if not i else ''}}}\n"
        for i, (time, share) in enumerate(zip(times, shares, strict=False))
    ]
    return f"kind: method\nexpected_peaks: {peaks}\nprogramme:\n{''.join(lines)}"


def test_silent_for_a_rising_gradient_and_its_return() -> None:
    assert findings(rows(4, 20, 20, 4), RULE) == []


def test_silent_for_a_fall_that_is_declared_or_small() -> None:
    assert findings(rows(40, 20, 20, 40, reason=", reason: focusing"), RULE) == []
    assert findings(rows(22, 20, 20, 22), RULE) == []


def test_silent_where_a_tenth_would_fall_as_well() -> None:
    """60 to 5 %: 6 % would still be above, so no slip of the key explains it."""
    assert findings(rows(60, 5, 5, 60), RULE) == []


def test_silent_where_peaks_leave_while_it_is_high() -> None:
    peaks = "[{name: a, retention_time: 1 min}, {name: b, retention_time: 2 min}]"
    assert findings(rows(40, 20, 20, 40, peaks=peaks), RULE) == []


def test_forty_for_four_is_a_caution_with_what_may_be_meant() -> None:
    (found,) = findings(rows(40, 20, 20, 40), RULE)
    assert found.grade == "caution"
    assert "it may be 4 % v/v" in found.message
    assert found.remedy.startswith("start at 4 % v/v")
