"""gradient.fraction-out-of-range: cap of the card; 100 +/- 0.1 %: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "gradient.fraction-out-of-range"


def ramp(to: str, cap: str = "100 % v/v") -> str:
    return (
        "kind: method\nprogramme:\n  - {time: 0 min, modifier_share: 0 % v/v}\n"
        f"  - {{time: 5 min, modifier_share: {to} v/v}}\n"
        f"---\nkind: instrument\nmodifier_pump: {{highest_share: {cap}}}\n"
    )


def blend(*shares: str) -> str:
    parts = ", ".join(
        f"{{liquid: {liquid}, share: {share} % v/v}}"
        for liquid, share in zip(("methanol", "ethanol"), shares, strict=True)
    )
    return f"kind: method\nmobile_phase: {{modifier: {{liquid: null, liquids: [{parts}]}}}}\n"


@pytest.mark.parametrize("share", ["0 %", "100 %"])
def test_silent_at_both_ends(share: str) -> None:
    """0 % and 100 % themselves are legal: pure CO2 and a wash with pure modifier."""
    assert findings(ramp(share), RULE) == []


@pytest.mark.parametrize("shares", [("95", "5"), ("95", "4.95"), ("95", "5.09")])
def test_silent_for_a_blend_within_a_tenth(shares: tuple[str, str]) -> None:
    assert findings(blend(*shares), RULE) == []


def test_above_100_per_cent() -> None:
    (found,) = findings(ramp("120 %"), RULE)
    assert found.grade == "fault"
    assert found.at.path == ("programme", 1, "modifier_share")
    assert (
        "120 %" in found.message and "row 2" in found.message and "20 % too much" in found.message
    )
    assert found.remedy == "set the modifier to 100 % v/v there"


def test_above_the_cap_of_the_pump() -> None:
    (found,) = findings(ramp("60 %", "50 % v/v"), RULE)
    assert "the modifier pump stops at 50 %" in found.message
    assert found.remedy == "set the modifier to 50 % v/v there"
    assert [at.path for at in found.also] == [("modifier_pump", "highest_share")]


@pytest.mark.parametrize(("shares", "total"), [(("95", "4.8"), 99.8), (("60", "60"), 120.0)])
def test_a_blend_that_is_not_whole(shares: tuple[str, str], total: float) -> None:
    (found,) = findings(blend(*shares), RULE)
    assert found.found is not None and found.found.value == pytest.approx(total)


def test_a_pump_without_a_cap_is_not_checked() -> None:
    report = judged(ramp("50 %", "null"), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [
        ("instrument.modifier_pump.highest_share",)
    ]
