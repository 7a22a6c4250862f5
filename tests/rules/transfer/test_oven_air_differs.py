"""Air around the column in a transfer; from 1 K of cooling on: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "transfer.oven-air-differs"
STATE = (
    "oven_temperature: 60 degC\noutlet_pressure: {} bar\nflow: 1.2 mL/min\n"
    "mobile_phase: {{modifier_share: 3 % v/v}}\nprogramme: []\n"
)


def pair(here: str, there: str, outlet: int = 130, share: str = "3 %") -> str:
    state = STATE.format(outlet).replace("3 %", share)
    return (
        f"kind: method\ntransferred_from: assay\nruns_on: [two]\n{state}---\n"
        f"kind: method\nx-name: assay\nruns_on: [one]\n{state}---\n"
        f"kind: instrument\nx-name: one\noven: {{air: {there}}}\n---\n"
        f"kind: instrument\nx-name: two\noven: {{air: {here}}}\n"
    )


def test_silent_in_the_same_air_or_where_one_card_says_nothing() -> None:
    assert findings(pair("still", "still"), RULE) == []
    assert findings(pair("forced", "null"), RULE) == []


def test_silent_where_the_mobile_phase_hardly_cools() -> None:
    """A rich mobile phase hardly expands."""
    assert findings(pair("forced", "still", 150, "50 %"), RULE) == []


def test_another_air_around_a_column_that_cools_is_a_caution() -> None:
    (found,) = findings(pair("forced", "still"), RULE)
    assert found.grade == "caution"
    assert found.found is not None and found.found.value > 1.0
    assert "(unverified)" in found.message
