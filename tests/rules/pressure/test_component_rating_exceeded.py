"""Parts of the train, each at its own place."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "pressure.component-rating-exceeded"


def train(
    valve: str = "550 bar", before: str = "", behind: str = "", regulator: str = "380 bar"
) -> str:
    return f"""
kind: instrument
train:
{before}  - {{part: injector, name: injection valve, volume: 10 uL, pressure_rating: {valve}}}
  - {{part: column}}
{behind}  - {{part: regulator, name: regulator, pressure_rating: {regulator}}}
"""


SELECTOR = "  - {part: valve, name: selector, pressure_rating: 230 bar}\n"


def test_silent_where_the_part_is_bypassed() -> None:
    bypassed = SELECTOR.replace("230 bar", "230 bar, bypassed: true")
    assert findings(train(before=bypassed), RULE) == []
    assert len(findings(train(before=SELECTOR), RULE)) == 1


def test_silent_where_the_part_lies_behind_the_column() -> None:
    """Downstream of the column there is the regulator's 150 bar, whatever the pumps reach."""
    assert findings(train(behind=SELECTOR), RULE) == []


def test_silent_for_the_cell_which_has_a_rule_of_its_own() -> None:
    cell = "  - {part: cell, name: UV cell, pressure_rating: 100 bar}\n"
    assert findings(train(behind=cell), RULE) == []


def test_the_weak_valve_in_front_of_the_column_is_named() -> None:
    [found] = findings(train("250 bar"), RULE)
    assert found.grade == "stop"
    assert found.cautions == ("pressure",)
    assert "injection valve (part 1 of the train)" in found.message
    assert found.remedy.startswith("set the flow to")


def test_the_weakest_comes_first_and_the_others_are_named() -> None:
    [found] = findings(train("250 bar", before=SELECTOR), RULE)
    assert "the selector" in found.message
    assert "also injection valve" in found.message


def test_the_regulator_sees_its_own_setting() -> None:
    [found] = findings(train(regulator="140 bar"), RULE)
    assert "the regulator" in found.message


def test_a_relief_of_its_own_lowers_a_possible_stop() -> None:
    run = judged("", RULE).runs[0].run
    worst = run.highest(run.pump_pressure)
    rating = f"{(worst.value + 0.3 * worst.band) / 1e5:.1f} bar"
    limits = "---\nkind: method\npressure_limits: {high: 500 bar, low: 155 bar}"
    assert [f.grade for f in findings(train(rating) + limits, RULE)] == ["stop"]
    guarded = train(rating).replace(f"{rating}}}", f"{rating}, relief: {rating}}}", 1)
    assert [f.grade for f in findings(guarded + limits, RULE)] == ["caution"]


def test_parts_without_a_rating_are_not_checked() -> None:
    unrated = "  - {part: filter, name: line filter}\n"
    report = judged(train(before=unrated), RULE)
    assert [item.missing for item in report.not_checked] == [
        ("instrument.train[0].pressure_rating",)
    ]
    assert "line filter" in report.not_checked[0].reason


TUBE = "  - {part: tube, name: injector to column, length: 300 mm, bore: 0.17 mm}\n"


@pytest.mark.parametrize(
    ("given", "missing"), [("length: 300 mm", "bore"), ("bore: 0.17 mm", "length")]
)
def test_a_tube_whose_loss_is_not_known_leaves_the_pressures_open(given: str, missing: str) -> None:
    tube = TUBE.replace("length: 300 mm, bore: 0.17 mm", given)
    report = judged(train(before=tube), RULE)
    assert [item.missing for item in report.not_checked] == [(f"instrument.train[0].{missing}",)]
    assert report.verdict == "run with care"


def test_silent_for_tubes_that_are_whole_bypassed_or_downstream_of_the_regulator() -> None:
    bypassed = "  - {part: tube, name: spare, bypassed: true}\n"
    after = "  - {part: tube, name: to waste}\n"
    assert judged(train(before=TUBE + bypassed) + after, RULE).not_checked == []
