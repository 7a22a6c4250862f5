"""injection.precipitates-in-loop: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "injection.precipitates-in-loop"


def method(stream: str, level: str = "60 mg/mL", solubility: str = "15 mg/mL") -> str:
    return (
        f"kind: method\npurpose: preparative\ninjection: {{volume: 500 uL, stream: {stream}, "
        f"sample_concentration: {level}, solubility: {solubility}}}\n"
    )


def test_silent_in_the_modifier_stream() -> None:
    assert findings(method("modifier"), RULE) == []


def test_silent_below_the_solubility_and_where_it_is_not_stated() -> None:
    assert findings(method("mixed", "10 mg/mL"), RULE) == []
    report = judged("kind: method\ninjection: {volume: 2 uL, stream: mixed}\n", RULE)
    assert (report.findings, report.not_checked) == ([], [])


@pytest.mark.parametrize("stream", ["mixed", "CO2"])
def test_it_precipitates(stream: str) -> None:
    (found,) = findings(method(stream), RULE)
    assert found.grade == "fault"
    assert "60 mg/mL of sample" in found.message and "4 times less" in found.message


def test_two_kinds_of_unit_are_not_compared() -> None:
    report = judged(method("mixed", "10 mM"), RULE)
    assert [item.rule for item in report.not_checked] == [RULE]
