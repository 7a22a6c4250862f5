"""0.9 of the rating: common practice, no source. At the tee upstream of the regulator the pressure is
the outlet pressure, 150 bar in the sound lab."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "makeup.pump-cannot-reach-tee"
BEFORE = "kind: method\nmakeup: {liquid: methanol, flow: 0.2 mL/min, tee: before the regulator}\n"


def _pump(text: str) -> str:
    return f"---\nkind: instrument\nmakeup_pump: {{{text}}}\n"


def test_silent_without_makeup() -> None:
    assert findings("kind: instrument\nmakeup_pump: {pressure_rating: 100 bar}\n", RULE) == []


def test_silent_behind_the_regulator() -> None:
    after = BEFORE.replace("before", "after")
    assert findings(after + _pump("pressure_rating: 20 bar, check_valve: false"), RULE) == []


def test_silent_below_nine_tenths_of_the_rating() -> None:
    assert findings(BEFORE + _pump("pressure_rating: 170 bar"), RULE) == []


def test_rating_too_low_is_a_fault() -> None:
    (found,) = findings(BEFORE + _pump("pressure_rating: 160 bar"), RULE)
    assert found.grade == "fault"
    assert found.found is not None
    assert found.found.value == pytest.approx(150.0, abs=1.0)
    assert found.limit is not None
    assert found.limit.value == pytest.approx(144.0)
    assert found.remedy == "put the makeup tee downstream of the regulator"


def test_no_check_valve_is_a_fault() -> None:
    (found,) = findings(BEFORE + _pump("check_valve: false"), RULE)
    assert "check valve" in found.message


def test_rating_that_is_not_given_is_not_checked() -> None:
    (missing,) = judged(BEFORE + _pump("pressure_rating: null"), RULE).not_checked
    assert missing.missing == ("instrument.makeup_pump.pressure_rating",)
