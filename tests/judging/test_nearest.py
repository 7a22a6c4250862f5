"""Where no single change resolves a finding, the closest is named with what is then wrong."""

from __future__ import annotations

from methodlint.judging.finding import Finding
from tests.judging.test_every_remedy import flawed_lab
from tests.scenarios.show import shows
from tests.text_labs import base_lab, everything

NOTHING = "no single change tried resolves it"


def _found(name: str, rule: str) -> Finding:
    [show] = [one for one in shows() if one.name == name]
    return next(one for one in show.lab("lines").judged().findings if one.rule == rule)


def test_a_change_that_does_not_suffice_says_what_is_left() -> None:
    """No flow brings a column rated to 144 bar to that with a regulator at 150 bar."""
    lab = base_lab().changed("column.pressure_rating", "144 bar")
    [found] = [
        one for one in lab.judged().findings if one.rule == "pressure.column-rating-exceeded"
    ]
    closest, _, left = found.remedy.partition(f"{NOTHING}; the closest is to ")[2].rpartition(
        ", which leaves "
    )
    assert closest.startswith("set the flow to")
    assert "against 144 bar (stop)" in left
    assert found.found is not None and float(left.split()[0]) < found.found.value


def test_a_change_that_raises_another_finding_is_not_advised() -> None:
    """A flush that stores the column, in a sequence whose flush before it bursts it."""
    found = _found("lines/flush-viscous", "column.storage-not-planned")
    assert found.remedy.startswith(f"{NOTHING}; the closest is to flush with ethanol")
    assert found.remedy.endswith("which then raises pressure.column-rating-exceeded")


def test_a_programmed_regulator_has_a_low_limit_that_suits() -> None:
    """0.8 of the lowest pump pressure, 143 bar, lies below 0.7 of the highest setting, 310 bar."""
    [show] = [one for one in shows() if one.name == "neat/regulator-programme-beyond-the-cell"]
    for low, said in (("143 bar", False), ("120 bar", True)):
        lab = show.lab("lines").changed("method.pressure_limits.low", low)
        found = [one for one in lab.judged().findings if one.rule == "pressure.low-limit-missing"]
        assert bool(found) == said, low
        assert all(one.remedy.startswith("set the low pressure limit to 143 bar") for one in found)


def test_no_change_sets_the_low_limit_above_the_high_one() -> None:
    for lab in (
        flawed_lab("terpenoids-hot-and-low"),
        base_lab().changed("method.flow", "6 mL/min"),
    ):
        assert_limits_in_order(lab.judged().findings)


def assert_limits_in_order(findings: list[Finding]) -> None:
    for finding in everything(findings):
        for candidate in finding.candidates:
            at = {
                str(one.at.path[1]): float(str(one.value).split()[0])
                for one in candidate.changes
                if one.at.path[0] == "pressure_limits"
            }
            assert at.get("low", 0.0) < at.get("high", float("inf")), candidate.text
