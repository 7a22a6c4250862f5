"""detector.window-misses-peak: 3 sigma + 5 %: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.window-misses-peak"

# tR 2 min, width 4 s: 3 sigma = 3 s, 5 % = 6 s; needed 1.85 to 2.15 min (arithmetic).


def method(begins: str, ends: str, name: str = "caffeine 195 > 138") -> str:
    return (
        "kind: method\nexpected_peaks: [{name: caffeine, retention_time: 2 min, width: 4 s}]\n"
        "detectors:\n  - type: MS\n    source: ESI\n    polarity: positive\n    transitions:\n"
        f"      - {{name: {name}, dwell: 20 ms, begins: {begins}, ends: {ends}}}\n"
    )


def test_silent_for_a_window_that_just_holds_the_peak() -> None:
    assert findings(method("1.85 min", "2.15 min"), RULE) == []


def test_silent_for_the_transition_of_something_else() -> None:
    assert findings(method("4 min", "5 min", "theobromine 181 > 138"), RULE) == []


def test_silent_if_nothing_is_scheduled() -> None:
    changes = "kind: method\nexpected_peaks: [{name: caffeine}]"
    assert judged(changes, RULE).not_checked == []


def test_silent_about_the_end_of_the_whole_trace() -> None:
    """That is detector.stops-before-end."""
    changes = (
        "kind: method\nexpected_peaks: [{name: A, retention_time: 2 min, width: 4 s}]\n"
        "detectors: [{type: UV, cell: UV cell, begins: 0 min, ends: 1 min}]\n"
    )
    assert findings(changes, RULE) == []


@pytest.mark.parametrize(
    ("begins", "ends", "key", "remedy"),
    [
        ("1.9 min", "3 min", "begins", "measure it from 1.85 min to 2.15 min"),
        ("1 min", "2.1 min", "ends", "measure it from 1.85 min to 2.15 min"),
        ("3 min", "4 min", "begins", "measure it from 1.85 min to 2.15 min"),
    ],
)
def test_a_window_that_is_too_tight(begins: str, ends: str, key: str, remedy: str) -> None:
    (found,) = findings(method(begins, ends), RULE)
    assert found.grade == "fault"
    assert found.at.path[-1] == key
    assert "'caffeine'" in found.message and "1.85 min to 2.15 min" in found.message
    assert found.remedy == remedy
    assert found.limit is not None
    assert found.limit.value == pytest.approx(1.85 if key == "begins" else 2.15)


def test_a_trace_that_begins_too_late() -> None:
    changes = (
        "kind: method\nexpected_peaks: [{name: A, retention_time: 2 min, width: 4 s}]\n"
        "detectors: [{type: UV, cell: UV cell, begins: 1.9 min}]\n"
    )
    (found,) = findings(changes, RULE)
    assert found.at.path == ("detectors", 0, "begins")
    assert found.remedy == "begin at 1.85 min"


def test_a_peak_without_a_time_is_not_checked() -> None:
    changes = method("1 min", "3 min").replace("retention_time: 2 min, ", "")
    report = judged(changes, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [
        ("method.expected_peaks[0].retention_time",)
    ]


def ms_behind_uv(length: str, times_at: str) -> str:
    """A window to 2.15 min, which holds the peak at the cell and no later."""
    return (
        method("1.85 min", "2.15 min")
        + f"peak_times_at: {times_at}\n---\nkind: instrument\ntrain:\n"
        "  - {part: mixer, volume: 0.2 mL}\n  - {part: injector, volume: 10 uL}\n"
        "  - {part: column}\n  - {part: cell, name: UV cell, volume: 11 uL, detector: UV}\n"
        f"  - {{part: tube, name: cell to regulator, length: {length}, bore: 0.25 mm}}\n"
        "  - {part: regulator}\n  - {part: source, detector: MS}\n"
    )


def test_silent_where_the_times_are_those_of_the_mass_spectrometer() -> None:
    assert findings(ms_behind_uv("6 m", "MS"), RULE) == []


def test_the_tube_between_uv_and_ms_delays_the_peak() -> None:
    """6 m of 0.25 mm hold 295 uL (arithmetic); at 1.5 mL/min pumped that is about 0.2 min."""
    (found,) = findings(ms_behind_uv("6 m", "UV"), RULE)
    assert found.grade == "fault"
    at = float(found.message.partition(" at ")[2].partition(" min")[0])
    assert 2.15 < at < 2.30
