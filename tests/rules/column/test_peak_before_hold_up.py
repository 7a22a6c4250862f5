"""column.peak-before-hold-up.

The sound lab: 3.0 x 150 mm with a total porosity of 0.65 holds 0.69 mL; at 1.5 mL/min its hold-up
time is about 0.40 min by mass (860 kg/m3 in the column, 1001 kg/m3 in the pump head). 21.2 x 150 mm hold 34.4 mL, at 3 mL/min about 10 min (arithmetic).
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "column.peak-before-hold-up"


def peaks(*times: str, name: str = "a", more: str = "") -> str:
    rows = "".join(f"  - {{name: {name} {i}, retention_time: {t}}}\n" for i, t in enumerate(times))
    return f"kind: method\n{more}expected_peaks:\n{rows}"


PREP = "---\nkind: column\ninner_diameter: 21.2 mm\n"


def test_silent_at_and_after_the_hold_up_time() -> None:
    assert findings(peaks("0.42 min", "0.45 min", "5 min"), RULE) == []


@pytest.mark.parametrize("name", ["void", "t0", "solvent front"])
def test_silent_for_a_marker_within_a_tenth(name: str) -> None:
    for time in ("0.36 min", "0.40 min", "0.44 min"):
        assert findings(peaks(time, name=name), RULE) == []


def test_silent_without_expected_peaks_or_their_times() -> None:
    assert findings("kind: method\nexpected_peaks: []", RULE) == []
    report = judged(
        "kind: method\nexpected_peaks: [{name: a}]" + "\n---\nkind: column\nlength: null", RULE
    )
    assert (report.findings, report.not_checked) == ([], [])


def test_silent_where_the_hold_up_time_is_not_known() -> None:
    report = judged(peaks("0.1 min") + "---\nkind: column\nlength: null", RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("column.length",)


def test_silent_on_a_prep_column_with_times_that_go_with_it() -> None:
    more = "flow: 60 mL/min\nprogramme: []\n"
    more += "mobile_phase: {modifier_share: 10 % v/v, modifier: methanol}\n"
    assert findings(peaks("0.6 min", "2.6 min", more=more) + PREP, RULE) == []


def test_silent_for_stacked_injections_counted_from_another_one() -> None:
    more = "injection: {volume: 2 uL, mode: part-filled loop, stacked_every: 1 min}\n"
    assert findings(peaks("0.1 min", "0.3 min", more=more), RULE) == []


def test_silent_where_the_flow_rises_on_the_way() -> None:
    """At 0.3 mL/min all along it would be 2.1 min; most of the way is at 3 mL/min."""
    more = (
        "flow: 0.3 mL/min\nprogramme:\n"
        "  - {time: 0 min, modifier_share: 5 % v/v}\n"
        "  - {time: 0.2 min, modifier_share: 5 % v/v, flow: 3 mL/min}\n"
    )
    assert findings(peaks("0.7 min", more=more), RULE) == []


def test_a_little_early_is_a_caution() -> None:
    (found,) = findings(peaks("0.3 min"), RULE)
    assert found.grade == "caution"
    assert found.at.path == ("expected_peaks", 0, "retention_time")
    assert found.limit is not None
    assert found.limit.value == pytest.approx(0.69 / 1.5 * 0.86, rel=0.05)


def test_less_than_half_is_a_fault_told_once_at_the_earliest() -> None:
    (found,) = findings(peaks("5 min", "0.2 min", "0.1 min"), RULE)
    assert found.grade == "fault"
    assert found.at.path == ("expected_peaks", 2, "retention_time")
    assert "'a 2' is expected at 0.1 min" in found.message
    assert found.message.endswith("too early are 2 of 3 expected times")


def test_an_analytical_method_on_a_prep_column() -> None:
    """34.4 mL at 3 mL/min are 11.5 min at equal densities; CO2 in the column is less dense."""
    more = "flow: 3 mL/min\n"
    (found,) = findings(peaks("2.6 min", "3.4 min", more=more) + PREP, RULE)
    assert found.grade == "fault"
    assert found.limit is not None
    assert 9.0 < found.limit.value < 11.5
    assert "34.4 mL of mobile phase, 3 mL/min set" in found.message
    assert "2 of 2 expected times" in found.message
    assert "unit of the time" in found.remedy


def test_what_follows_from_the_time_stands_beneath() -> None:
    """4 x 6 s / sqrt(9000) are 0.25 s, too narrow for 20 Hz (arithmetic)."""
    narrow = "kind: method\nexpected_peaks: [{name: a, retention_time: 0.1 min, plates: 9000}]"
    (found,) = findings(narrow, RULE, "detector.rate-too-slow", "detector.filter-too-slow")
    assert found.rule == RULE
    assert {child.rule for child in found.because} == {
        "detector.rate-too-slow",
        "detector.filter-too-slow",
    }
