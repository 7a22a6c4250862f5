"""gradient.ends-after-run: dwell over flow plus hold-up time; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "gradient.ends-after-run"

# dwell 0.52 mL at 1.5 mL/min: 0.35 min; hold-up volume 0.69 mL, about 0.4 min.


def method(rows: str, run: str, settling: str = "3 min") -> str:
    return f"kind: method\nrun_length: {run}\nsettling_time: {settling}\nprogramme:\n{rows}"


RAMP = "  - {time: 0 min, modifier_share: 5 % v/v}\n  - {time: 6 min, modifier_share: 40 % v/v}\n"
HOLD = RAMP + "  - {time: 7 min, modifier_share: 40 % v/v}\n"
BACK = HOLD + "  - {time: 7.1 min, modifier_share: 5 % v/v}\n"


def test_silent_if_only_the_return_is_on_its_way_and_settling_follows() -> None:
    assert findings(method(BACK, "7.1 min"), RULE) == []


def test_silent_if_only_the_rest_of_a_hold_is_on_its_way() -> None:
    assert findings(method(HOLD, "7 min"), RULE) == []


def test_silent_for_an_isocratic_method() -> None:
    changes = (
        "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 9 % v/v}\nrun_length: 0.2 min"
    )
    assert findings(changes, RULE) == []


def test_a_return_without_settling_has_to_arrive() -> None:
    (found,) = findings(method(BACK, "7.2 min", "null"), RULE)
    assert found.grade == "fault"
    assert "row 4 (7.1 min)" in found.message


def test_the_last_ramp_is_still_on_its_way() -> None:
    """6 min + 0.52/1.5 + about 0.4 min: 6.75 min, and 6.9 with a band of 5 % rounded up."""
    (found,) = findings(method(RAMP, "6 min"), RULE)
    assert found.grade == "fault"
    assert found.found is not None and found.found.value == pytest.approx(6.75, abs=0.05)
    assert found.remedy == "set the run length to 6.9 min"


def test_inside_the_band_it_is_a_caution() -> None:
    """0.6 s short of an arrival that is known to 5 % of the delay (about 2 s)."""
    (found,) = findings(method(RAMP, "6.77 min"), RULE)
    assert found.grade == "caution"
    assert found.possible
    assert found.found is not None and found.found.value == pytest.approx(6.78, abs=0.03)


def test_a_row_after_the_end_needs_no_rehearsal() -> None:
    """Run 6 min, last row 6.5 min (scenario of a page of bad documents)."""
    rows = RAMP + "  - {time: 6.5 min, modifier_share: 50 % v/v}\n"
    changes = method(rows, "6 min") + "---\nkind: column\nlength: null\n"
    report = judged(changes, RULE)
    (found,) = report.findings
    assert found.grade == "fault"
    assert "0.5 min missing" in found.message


def test_without_a_rehearsal_the_delay_is_not_checked() -> None:
    report = judged(method(RAMP, "6 min") + "---\nkind: column\nlength: null\n", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("column.length",)]


def test_without_flow_nothing_arrives_and_that_is_said() -> None:
    report = judged(method(RAMP, "6 min") + "flow: 0 mL/min\n", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.flow",)]
