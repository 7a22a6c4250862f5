"""tG2 = tG1 (F1/F2)(L2 d2^2)/(L1 d1^2) (USP <621>, from memory). Within 5 %: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings
from tests.rules.transfer.pairs import FROM, FROM_GRADIENT, GRADIENT, ISOCRATIC, WIDE, programme

RULE = "transfer.gradient-not-scaled"
SLOW = "\n---\nkind: instrument\nx-name: slow\ndwell_volume: 1.08 mL\n"


SOURCE_ROWS = (0, 5), (10, 40), (12, 40), (13, 5)


def scaled(factor: float) -> str:
    """4.6 x 250, 5 um at 3.0 mL/min -> 3.0 x 150, 3 um at 2.13 mL/min."""
    rows = tuple((round(t * factor, 2), s) for t, s in SOURCE_ROWS)
    return (
        GRADIENT
        + "flow: 2.13 mL/min\nrun_length: 6 min\n"
        + programme(*rows)
        + FROM_GRADIENT
        + "flow: 3.0 mL/min\ncolumn: wide\nrun_length: 15 min\n"
        + programme(*SOURCE_ROWS)
        + WIDE
    )


def test_silent_on_isocratic_methods():
    text = ISOCRATIC + "run_length: 3 min" + FROM + "runs_on: [slow]\ncolumn: wide" + WIDE + SLOW
    assert findings(text, RULE) == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(GRADIENT + FROM_GRADIENT, RULE) == []


def test_silent_without_a_source():
    assert findings("kind: method\n" + programme((0, 5), (1, 40)), RULE) == []


def test_times_by_geometry_are_silent():
    """x 0.360 (common practice, no source; the formula of USP <621> from memory)."""
    assert findings(scaled(0.360), RULE) == []


@pytest.mark.parametrize("factor", [1.0, 0.45, 0.28])
def test_other_times_are_found(factor):
    (found,) = findings(scaled(factor), RULE)
    assert found.grade == "fault"
    assert "0.359 by geometry" in found.message
    assert found.at.path[:1] == ("programme",)


def test_another_programme_is_found():
    text = GRADIENT + programme((0, 5), (5, 40)) + FROM_GRADIENT + programme((0, 5), (5, 60))
    (found,) = findings(text, RULE)
    assert "another gradient" in found.message


def test_an_initial_hold_is_no_segment():
    text = GRADIENT + programme((0, 5), (0.37, 5), (5.37, 40)) + FROM_GRADIENT
    assert findings(text + programme((0, 5), (5, 40)) + "run_length: 7 min", RULE) == []
