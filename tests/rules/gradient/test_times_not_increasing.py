"""gradient.times-not-increasing: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "gradient.times-not-increasing"


def programme(*times: str) -> str:
    rows = "".join(
        f"  - {{time: {time}, modifier_share: {5 + index} % v/v}}\n"
        for index, time in enumerate(times)
    )
    return "kind: method\nprogramme:\n" + rows


def test_silent_for_rising_times() -> None:
    assert findings(programme("0 min", "1 min", "90 s"), RULE) == []


def test_silent_for_an_isocratic_method() -> None:
    changes = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 9 % v/v}"
    assert findings(changes, RULE) == []


def test_silent_for_equal_times_that_declare_a_step() -> None:
    assert findings(programme("0 min", "4 min", "4 min, step: true"), RULE) == []


def test_times_of_the_page_of_bad_documents() -> None:
    """0, 1, 1, 0.8 min: row 4 goes back (scenario of a page of bad documents)."""
    (found,) = findings(programme("0 min", "1 min", "1 min", "0.8 min"), RULE)
    assert found.grade == "fault"
    assert "row 4 at 0.8 min is before the row before it (1 min)" in found.message
    assert "row 3 at 1 min is at the time of the row before it" in found.message


def test_a_step_does_not_excuse_a_row_that_goes_back() -> None:
    (found,) = findings(programme("0 min", "4 min", "3 min, step: true"), RULE)
    assert found.at.path == ("programme", 2, "time")


@pytest.mark.parametrize(
    ("times", "remedy"),
    [
        (("0 min", "5 min", "4 min"), "sort the programme by time: 0 min, 4 min, 5 min"),
        (
            ("0 min", "1 min", "1 min", "0.8 min"),
            (
                "sort the programme by time: 0 min, 0.8 min, 1 min, 1 min; "
                "rows of equal time marked as steps"
            ),
        ),
        (
            ("0.5 min", "5 min"),
            "sort the programme by time, beginning at 0 min: 0 min, 5 min",
        ),
    ],
)
def test_remedy_is_the_sorted_table(times: tuple[str, ...], remedy: str) -> None:
    (found,) = findings(programme(*times), RULE)
    assert found.remedy == remedy


def test_a_first_row_after_zero() -> None:
    (found,) = findings(programme("0.5 min", "5 min"), RULE)
    assert "row 1 begins at 0.5 min, not at 0 min" in found.message
