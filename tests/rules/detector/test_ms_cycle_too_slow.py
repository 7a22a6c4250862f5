"""detector.ms-cycle-too-slow: 10 and 15 points over a peak: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.ms-cycle-too-slow"


def method(transitions: str, peaks: str = "", more: str = "pause: 5 ms") -> str:
    peaks = peaks or "[{name: A, retention_time: 1 min, width: 3 s}]"
    return (
        f"kind: method\nexpected_peaks: {peaks}\ndetectors:\n"
        f"  - {{type: MS, source: ESI, polarity: positive, {more}, transitions: [{transitions}]}}\n"
    )


def spread(count: int, dwell: str = "45 ms") -> str:
    """One window after the other, half a minute each."""
    return ", ".join(
        f"{{dwell: {dwell}, begins: {0.5 * i} min, ends: {0.5 * (i + 1)} min}}"
        for i in range(count)
    )


def test_silent_if_scheduled_windows_do_not_overlap() -> None:
    """40 transitions of 50 ms would be a cycle of 2 s; one at a time it is 50 ms."""
    assert findings(method(spread(40)), RULE) == []


def test_the_same_list_without_windows_is_a_fault() -> None:
    """40 x 50 ms = 2 s over a peak of 3 s: 1.5 points (arithmetic)."""
    (found,) = findings(method(", ".join(["{dwell: 45 ms}"] * 40)), RULE)
    assert found.grade == "fault"
    assert found.found is not None and found.found.value == pytest.approx(1.5)


def test_silent_without_a_mass_spectrometer() -> None:
    assert judged("kind: method", RULE).not_checked == []
    assert findings("kind: method", RULE) == []


def test_silent_under_a_wide_peak() -> None:
    """The busiest moment lies under a peak of 12 s; the narrow peak is measured alone."""
    busy = ", ".join(["{dwell: 95 ms, begins: 4 min, ends: 6 min}"] * 7)
    peaks = "[{name: A, retention_time: 1 min, width: 2 s}, {name: B, retention_time: 5 min, width: 12 s}]"
    alone = "{dwell: 95 ms, begins: 0 min, ends: 2 min}, "
    assert findings(method(alone + busy, peaks), RULE) == []


@pytest.mark.parametrize(("count", "grade"), [(4, None), (5, "caution"), (7, "fault")])
def test_classes(count: int, grade: str | None) -> None:
    """3 s over n x 50 ms: 15, 12 and 8.6 points (arithmetic)."""
    found = findings(method(", ".join(["{dwell: 45 ms}"] * count)), RULE)
    assert [item.grade for item in found] == ([grade] if grade else [])


def test_the_busiest_moment_is_named() -> None:
    windows = (
        "{dwell: 145 ms, begins: 0 min, ends: 3 min}, {dwell: 145 ms, begins: 0.8 min, ends: 2 min}"
    )
    (found,) = findings(method(windows), RULE)
    assert "from 0.8 min to 2 min 2 transitions take 300 ms" in found.message
    assert found.remedy == "set the dwell times of that moment to 95 ms"


def test_changes_of_polarity_count() -> None:
    """2 x 50 + 2 x 75 ms = 0.25 s, 12 points (arithmetic)."""
    both = "{dwell: 45 ms, polarity: positive}, {dwell: 45 ms, polarity: negative}"
    more = "pause: 5 ms, polarity_switch: 75 ms"
    (found,) = findings(method(both, more=more), RULE)
    assert found.found is not None and found.found.value == pytest.approx(12.0)


def test_spectra_of_a_scan() -> None:
    changes = (
        "kind: method\nexpected_peaks: [{name: A, width: 3 s}]\n"
        "detectors: [{type: MS, source: ESI, scan: [100, 600], rate: 4 Hz}]\n"
    )
    (found,) = findings(changes, RULE)
    assert found.grade == "caution"
    assert found.remedy == "set the rate to 5 Hz"


@pytest.mark.parametrize(
    ("transitions", "more", "missing"),
    [
        ("{dwell: 20 ms}, {dwell: 20 ms}", "begins: 0 min", "pause"),
        (
            "{dwell: 20 ms, polarity: positive}, {dwell: 20 ms, polarity: negative}",
            "pause: 5 ms",
            "polarity_switch",
        ),
    ],
)
def test_a_missing_figure_is_not_a_pass(transitions: str, more: str, missing: str) -> None:
    report = judged(method(transitions, more=more), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [(f"method.detectors[0].{missing}",)]
