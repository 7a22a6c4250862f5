"""collection.stacked-windows-collide: arithmetic of windows modulo the interval."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "collection.stacked-windows-collide"


def method(every: str, peaks: str, more: str = "") -> str:
    return (
        "kind: method\npurpose: preparative\ninjection: {volume: 500 uL, stream: modifier, "
        f"stacked_every: {every}{more}}}\nexpected_peaks: [{peaks}]\n"
    )


# Windows of two sigma: 2.75 to 3.25 min and 4.2 to 4.8 min (width is 4 sigma).
FIRST = "{name: A, retention_time: 3 min, width: 30 s, collected: true}"
SECOND = "{name: B, retention_time: 4.5 min, width: 36 s, collected: true}"
WASTE = "{name: B, retention_time: 4.5 min, width: 36 s}"


def test_silent_where_the_windows_interleave() -> None:
    # modulo 2.7 min: 0.05 to 0.55 and 1.5 to 2.1
    assert findings(method("2.7 min", f"{FIRST}, {SECOND}"), RULE) == []


def test_silent_where_nothing_is_collected_or_stacked() -> None:
    plain = FIRST.replace(", collected: true", "")
    assert findings(method("1.5 min", f"{plain}, {WASTE}"), RULE) == []
    alone = method("1.5 min", f"{FIRST}, {SECOND}").replace(", stacked_every: 1.5 min", "")
    assert findings(alone, RULE) == []


@pytest.mark.parametrize("second", [SECOND, WASTE], ids=["collected", "waste"])
def test_a_peak_of_the_injection_before_falls_on_a_collected_one(second: str) -> None:
    # 1.5 min later A of the next injection is at 4.25 to 4.75 min: 30 s of B
    (found,) = findings(method("1.5 min", f"{FIRST}, {second}"), RULE)
    assert found.grade == "fault"
    assert found.message == "every 1.5 min 'A' falls on 'B' of another injection for 30 s"
    # 36 s of B and half a minute of A need 1.1 min; at 1.55 min 27 s, at 2.05 min none
    assert found.remedy == "inject every 2.05 min"


def test_the_disturbance_of_the_next_injection() -> None:
    # modulo 2.9 min A is at 2.75 to 3.25, the disturbance at 0 and 2.9 min
    (found,) = findings(method("2.9 min", FIRST, ", disturbance: 12 s"), RULE)
    assert "'A' falls on the injection disturbance of another injection for 12 s" in found.message


def test_a_window_longer_than_the_interval() -> None:
    (found,) = findings(method("0.4 min", FIRST), RULE)
    assert "'A' falls on itself" in found.message


def test_a_collected_peak_without_a_width_is_asked_for() -> None:
    bare = "{name: A, collected: true}"
    report = judged(method("2 min", bare), RULE)
    assert [item.missing for item in report.not_checked] == [("method.expected_peaks[0].width",)]
