"""collection.window-misses-peak: two standard deviations hold 95 % of a Gaussian (arithmetic)."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "collection.window-misses-peak"


def method(begins: str, ends: str, peak: str = "peak: A, ") -> str:
    """Width 24 s is four sigma: the peak passes from 2.8 to 3.2 min."""
    return (
        "kind: method\npurpose: preparative\n"
        "expected_peaks: [{name: A, retention_time: 3 min, width: 24 s}]\n"
        f"collection: {{fractions: [{{{peak}begins: {begins}, ends: {ends}}}]}}\n"
    )


COLLECTOR = "---\nkind: instrument\ncollector: {kind: open bed, delay_volume: 1 mL}\n"


def test_silent_for_a_window_that_holds_the_peak() -> None:
    assert findings(method("2.8 min", "3.2 min"), RULE) == []


def test_silent_for_a_heart_cut_without_a_peak() -> None:
    assert findings(method("2.95 min", "3.05 min", peak=""), RULE) == []


def test_silent_where_nothing_is_collected() -> None:
    report = judged("kind: method\npurpose: preparative\n", RULE)
    assert report.findings == []


def test_a_late_window_loses_the_front() -> None:
    (found,) = findings(method("3 min", "3.4 min"), RULE)
    assert (found.grade, found.at.path[-1]) == ("fault", "begins")
    assert found.message.endswith("12 s of it are lost")


def test_the_delay_volume_moves_the_peak() -> None:
    """1 mL at 1.5 mL/min as pumped is 40 s; the warm mobile phase is thinner, so a little less."""
    (found,) = findings(method("2.8 min", "3.2 min") + COLLECTOR, RULE)
    delay = float(found.message.partition("min, ")[2].partition(" s after the cell")[0])
    assert 30.0 < delay < 40.0
    assert found.at.path[-1] == "ends"


def test_a_peak_that_is_not_expected_is_asked_for() -> None:
    report = judged(method("2.8 min", "3.2 min").replace("peak: A", "peak: B"), RULE)
    assert [item.missing for item in report.not_checked] == [("method.expected_peaks[].width",)]
