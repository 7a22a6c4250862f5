"""gradient.start-too-lean: Glenne et al., Anal. Chem. 2020 (abstract seen); 2-3 %: common practice."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "gradient.start-too-lean"


def start(share: str, analytes: str = "polar", more: str = "", additives: str = "[]") -> str:
    return (
        f"kind: method\nanalytes: {analytes}\n{more}"
        f"mobile_phase: {{modifier: {{additives: {additives}}}}}\nprogramme:\n"
        f"  - {{time: 0 min, modifier_share: {share} % v/v}}\n"
        "  - {time: 5 min, modifier_share: 40 % v/v}\n"
    )


ACID = "[{additive: formic acid, level: 0.1 % v/v}]"


@pytest.mark.parametrize("analytes", ["lipids", "waxes", "hydrocarbons"])
@pytest.mark.parametrize("additives", ["[]", ACID])
def test_silent_for_what_is_at_home_in_nearly_pure_co2(analytes: str, additives: str) -> None:
    assert findings(start("1", analytes, additives=additives), RULE) == []


def test_silent_if_every_peak_is_a_wax() -> None:
    peaks = "expected_peaks: [{name: A, kind: wax}, {name: B, kind: lipid}]\n"
    assert findings(start("1", "mixed", peaks), RULE) == []


def test_silent_for_pure_co2() -> None:
    assert findings(start("0"), RULE) == []


def test_silent_from_the_limit_on() -> None:
    assert findings(start("2"), RULE) == []
    assert findings(start("3", additives=ACID), RULE) == []


@pytest.mark.parametrize("analytes", ["polar", "ionisable", "mixed"])
def test_polar_analytes(analytes: str) -> None:
    (found,) = findings(start("1.5", analytes), RULE)
    assert found.grade == "note"
    assert found.at.path == ("programme", 0, "modifier_share")
    assert "1.5 %" in found.message and "2 %" in found.message
    assert found.remedy == "start at 2 % v/v"


def test_an_additive_moves_the_limit() -> None:
    (found,) = findings(start("2.5", additives=ACID), RULE)
    assert "3 %" in found.message
    assert "20 hold-up volumes" in found.message
    assert found.remedy == "start at 3 % v/v"


def test_what_the_pump_meters_is_said() -> None:
    """0.02 of 1.5 mL/min are 1.3 % (arithmetic)."""
    (found,) = findings(start("1.5"), RULE)
    assert "meters from 1.3 % at this flow" in found.message


def test_one_cause_is_one_finding() -> None:
    """1 % of 1.5 mL/min are 0.015 mL/min, below what the pump meters: told beneath."""
    report = judged(start("1"), RULE, "flow.minor-pump-too-slow")
    (found,) = report.findings
    assert found.rule == RULE
    assert [child.rule for child in found.because] == ["flow.minor-pump-too-slow"]


def test_unknown_analytes_are_not_checked() -> None:
    report = judged(start("1", "null", "expected_peaks: []\n"), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.analytes",)]


def test_remedy_lifts_the_return_as_well() -> None:
    changes = start("1") + "  - {time: 6 min, modifier_share: 1 % v/v}\n"
    (found,) = findings(changes, RULE, "flow.minor-pump-too-slow", "gradient.no-return-to-start")
    assert found.remedy == "start at 2 % v/v, and return to it"
