"""sequence.leaves-another-state; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "sequence.leaves-another-state"


def leaves(state: str) -> str:
    return f"kind: sequence\nleaves: {state}\n"


@pytest.mark.parametrize(
    "state",
    [
        "null",
        '{modifier: methanol, column: column, co2: "off", makeup: "off", oven_temperature: 40 degC}',
        "{column: column}",
    ],
)
def test_silent_where_nothing_differs(state: str) -> None:
    """The sound lab ends with a flush of methanol and a shutdown, its oven at 40 degC."""
    assert findings(leaves(state), RULE) == []


@pytest.mark.parametrize(
    ("state", "words"),
    [
        ("{modifier: n-heptane}", "modifier lines: written n-heptane, by the lines methanol"),
        ("{column: amylose-3um}", "column: written amylose-3um"),
        ('{co2: "on"}', "CO2: written on, by the lines off"),
        ('{makeup: "on"}', "makeup: written on, by the lines off"),
        ("{oven_temperature: 60 degC}", "oven: written 60 degC, by the lines 40 degC"),
    ],
)
def test_each_thing_that_the_lines_leave_otherwise(state: str, words: str) -> None:
    (found,) = findings(leaves(state), RULE)
    assert found.grade == "caution"
    assert words in found.message
