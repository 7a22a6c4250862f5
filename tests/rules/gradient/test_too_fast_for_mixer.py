"""gradient.too-fast-for-mixer: 1.5 dwell volumes and 50 %/min: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "gradient.too-fast-for-mixer"

# dwell 0.52 mL at 1.5 mL/min: 1.5 dwell volumes take 0.52 min; 35 % at 50 %/min take 0.7 min.


def ramp(second: str, rest: str = "") -> str:
    return (
        "kind: method\nrun_length: 9 min\nprogramme:\n"
        "  - {time: 0 min, modifier_share: 5 % v/v}\n"
        "  - {time: 1 min, modifier_share: 5 % v/v}\n"
        f"  - {{{second}}}\n{rest}"
        "  - {time: 7 min, modifier_share: 50 % v/v}\n"
        "  - {time: 7.2 min, modifier_share: 5 % v/v}\n"
    )


def test_silent_for_a_slow_ramp() -> None:
    assert findings(ramp("time: 1.8 min, modifier_share: 40 % v/v"), RULE) == []


def test_silent_for_an_isocratic_method() -> None:
    changes = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 9 % v/v}"
    assert findings(changes, RULE) == []


@pytest.mark.parametrize("mark", ["step: true", "reason: wash", "reason: column wash"])
def test_silent_for_declared_steps(mark: str) -> None:
    assert findings(ramp(f"time: 1.1 min, modifier_share: 40 % v/v, {mark}"), RULE) == []


def test_silent_for_a_wash_that_begins_when_the_last_peak_has_left() -> None:
    """A jump to strong mobile phase behind the last peak separates nothing (common practice)."""
    rows = ramp("time: 1.1 min, modifier_share: 40 % v/v")
    early = "expected_peaks: [{name: a, retention_time: 0.9 min, plates: 9000}]\n"
    late = "expected_peaks: [{name: a, retention_time: 3 min, plates: 9000}]\n"
    no_time = "expected_peaks: [{name: a}]\n"
    assert findings(rows + early, RULE) == []
    assert len(findings(rows + late, RULE)) == 1
    assert len(findings(rows + no_time, RULE)) == 1


def test_silent_for_the_return_to_the_start() -> None:
    """From 7 to 7.2 min the composition goes back by 45 %, 225 %/min."""
    changes = (
        "kind: method\nprogramme:\n  - {time: 0 min, modifier_share: 5 % v/v}\n"
        "  - {time: 7 min, modifier_share: 50 % v/v}\n"
        "  - {time: 7.2 min, modifier_share: 5 % v/v}\n"
    )
    assert findings(changes, RULE) == []


def test_steeper_than_50_per_cent_a_minute() -> None:
    """35 % in 0.5 min are 70 %/min; 0.7 min pass (arithmetic)."""
    (found,) = findings(ramp("time: 1.5 min, modifier_share: 40 % v/v"), RULE)
    assert found.grade == "caution"
    assert found.limit is not None and found.limit.value == pytest.approx(0.7)
    assert "70 %/min are set" in found.message


def test_shorter_than_the_mixer() -> None:
    """10 % in 0.25 min are 40 %/min, yet 0.375 of 0.78 mL (arithmetic)."""
    (found,) = findings(ramp("time: 1.25 min, modifier_share: 15 % v/v"), RULE)
    assert found.limit is not None and found.limit.value == pytest.approx(0.52, abs=0.01)
    assert "dwell volume (0.52 mL)" in found.message


def test_the_worst_ramp_is_the_one_reported() -> None:
    rest = "  - {time: 5.1 min, modifier_share: 45 % v/v}\n"
    (found,) = findings(ramp("time: 5 min, modifier_share: 15 % v/v", rest), RULE)
    assert found.at.path == ("programme", 3, "time")


def test_remedy_shifts_everything_behind() -> None:
    (found,) = findings(ramp("time: 1.5 min, modifier_share: 40 % v/v"), RULE)
    assert found.remedy == ("reach row 3 at 1.7 min, 0.2 min later, and shift what follows")
