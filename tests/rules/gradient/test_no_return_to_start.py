"""gradient.no-return-to-start: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "gradient.no-return-to-start"

START = "  - {time: 0 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}\n"
END = "  - {time: 5 min, modifier_share: 40 % v/v}\n"


def method(rows: str, settling: str = "null") -> str:
    return f"kind: method\nsettling_time: {settling}\nprogramme:\n{rows}"


def lines(*kinds: str) -> str:
    said = "".join(
        f"  - {{kind: {kind}, duration: 5 min}}\n"
        if kind in ("equilibration", "flush", "shutdown")
        else f"  - {{kind: {kind}, sample: S, plate: 1, well: A1}}\n"
        for kind in kinds
    )
    return f"---\nkind: sequence\nlines:\n{said}"


def test_silent_if_settling_time_follows() -> None:
    assert findings(method(START + END, "4 min"), RULE) == []


def test_silent_if_a_row_returns() -> None:
    rows = START + END + "  - {time: 6 min, modifier_share: 5 % v/v}\n"
    assert findings(method(rows), RULE) == []


def test_silent_for_an_isocratic_method() -> None:
    changes = (
        "kind: method\nsettling_time: null\nprogramme: []\nmobile_phase: {modifier_share: 9 % v/v}"
    )
    assert findings(changes, RULE) == []


def test_silent_if_an_equilibration_line_follows_every_run() -> None:
    changes = method(START + END) + lines("sample", "equilibration", "sample", "shutdown")
    assert findings(changes, RULE) == []


def test_silent_if_the_method_runs_once_before_another_step() -> None:
    assert findings(method(START + END) + lines("sample", "flush"), RULE) == []


@pytest.mark.parametrize(
    ("last", "word"),
    [
        ("modifier_share: 40 % v/v", "composition ends at 40 %, starts at 5 %"),
        ("flow: 1.0 mL/min", "flow ends at 1 mL/min, starts at 1.5 mL/min"),
        ("outlet_pressure: 180 bar", "outlet pressure ends at 180 bar, starts at 150 bar"),
        ("temperature: 45 degC", "oven temperature ends at 45 degC, starts at 40 degC"),
    ],
)
def test_each_value_that_stays_is_named(last: str, word: str) -> None:
    (found,) = findings(method(START + f"  - {{time: 5 min, {last}}}\n"), RULE)
    assert found.grade == "fault"
    assert word in found.message
    assert found.at.path == ("programme", 1)


def test_two_injections_in_a_row_need_the_return() -> None:
    assert len(findings(method(START + END) + lines("sample", "sample"), RULE)) == 1


def test_remedy_is_a_settling_time_that_is_long_enough() -> None:
    """(0.52 + 5 x 0.69) / 1.5 = 2.65 min, so 2.6 or 2.7 (scenario arithmetic, common practice)."""
    (found,) = findings(method(START + END), RULE)
    assert found.remedy in (
        "add a settling time of 2.6 min at the starting values",
        "add a settling time of 2.7 min at the starting values",
    )
