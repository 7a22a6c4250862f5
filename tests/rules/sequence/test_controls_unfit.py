"""ICH M10 (step 4, 2022), section 3.2.4 (second-hand): 3 x LLOQ, 30 to 50 %, 75 % of ULOQ."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import calibrators, line, sequence

RULE = "sequence.controls-unfit"


def controls(lower: float = 3, middle: float = 40, upper: float = 80, **more: object) -> list[str]:
    levels = {"lower": lower, "middle": middle, "upper": upper}
    return [line("control", f"Q {k}", control_level=k, level=v, **more) for k, v in levels.items()]


def bio(*lines: list[str], purpose: str = "bioanalysis") -> str:
    return sequence(*lines, purpose=purpose)


def test_silent_at_the_ends_of_each_span() -> None:
    """Range 1 to 101: middle from 31 to 51; 75 % of 101 are 75.75."""
    assert findings(bio(calibrators(1, 101), controls(1, 31, 75.75)), RULE) == []
    assert findings(bio(calibrators(1, 101), controls(3, 51, 101)), RULE) == []


def test_silent_outside_bioanalysis() -> None:
    assert findings(bio(calibrators(1, 100), controls(20, 21, 22), purpose="regulated"), RULE) == []


@pytest.mark.parametrize(
    ("placed", "which"),
    [({"lower": 3.2}, "lower"), ({"middle": 25}, "middle"), ({"upper": 70}, "upper")],
)
def test_a_control_out_of_place_is_a_caution(placed: dict[str, float], which: str) -> None:
    (found,) = findings(bio(calibrators(1, 101), controls(**placed)), RULE)
    assert found.grade == "caution"
    assert f"the {which} control" in found.message


def test_a_control_without_an_amount_is_not_checked() -> None:
    bare = [line("control", "QL", control_level="lower")]
    report = judged(bio(calibrators(1, 100), bare), RULE)
    assert [item.missing for item in report.not_checked] == [("sequence.lines[2].level",)]


def standards(stock: str) -> list[str]:
    return [line("calibrator", f"C{n}", level=n, stock=stock) for n in (1, 100)]


def test_silent_for_two_stocks_and_for_one_that_was_verified() -> None:
    assert findings(bio(standards("S-17"), controls(stock="S-18")), RULE) == []
    verified = controls(stock="S-17", stock_verified=True)
    assert findings(bio(standards("S-17"), verified), RULE) == []


def test_one_stock_for_both_is_a_caution() -> None:
    (found,) = findings(bio(standards("S-17"), controls(stock="S-17")), RULE)
    assert found.grade == "caution"
    assert "one stock, 'S-17'" in found.message


def test_levels_and_concentrations_are_not_mixed() -> None:
    """Calibrators by level, a control by concentration: nothing can be compared."""
    told = [line("control", "QL", control_level="lower", concentration="5 mg/mL")]
    report = judged(bio(calibrators(1, 100), told), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("sequence.lines[2].level",)]
