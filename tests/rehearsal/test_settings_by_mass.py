"""Flows and shares by mass are never taken for volumes; blends by mass become volumes."""

from __future__ import annotations

import pytest

from methodlint.documents.kinds.base import Liquid
from methodlint.rehearsal.plan.components import components_of
from tests.rules.harness import judged

RULE = "pressure.column-rating-exceeded"


def missing(text: str) -> list[tuple[str, ...]]:
    report = judged("kind: method\n" + text, RULE)
    assert report.findings == []
    return [item.missing for item in report.not_checked]


ISO = "programme: []\nmobile_phase: {modifier: {liquid: methanol}, modifier_share: 20 %s}\n"


def test_a_share_by_volume_is_rehearsed() -> None:
    assert missing(ISO % "% v/v") == []


@pytest.mark.parametrize("basis", ["% w/w", "% mol"])
def test_another_basis_is_never_taken_for_volume(basis: str) -> None:
    assert missing(ISO % basis) == [("method.mobile_phase.modifier_share",)]


def test_a_row_by_mass_is_asked_for_too() -> None:
    rows = "programme: [{time: 0 min, modifier_share: 5 % v/v}, {time: 5 min, ROW}]\n"
    by_mass = rows.replace("ROW", "modifier_share: 40 % w/w")
    assert missing(by_mass) == [("method.programme[].modifier_share",)]
    flow = rows.replace("ROW", "modifier_share: 40 % v/v, flow: 2 g/min")
    assert missing(flow) == [("method.programme[].flow",)]


def test_a_mass_flow_is_told_what_a_gram_counts_as() -> None:
    """CO2 at 10 degC and 150 bar: 954 kg/m3 (Span & Wagner 1996), so 1 g is 1.05 mL."""
    report = judged("kind: method\nflow: 60 g/min\n", RULE)
    assert "1 g/min of CO2 counting as 1.05 mL/min" in report.not_checked[0].reason


def reason(text: str) -> str:
    return judged("kind: method\n" + text, RULE).not_checked[0].reason


# CO2 at 10 degC and 150 bar 954 kg/m3 (Span & Wagner 1996), methanol at 20 degC 791.4 kg/m3 and
# 32.04 g/mol, CO2 44.01 g/mol (CRC Handbook): by hand
@pytest.mark.parametrize(
    ("share", "volume"),
    [
        ("20 % w/w", "20 % w/w as 23.2 % v/v"),  # 0.2/791.4 of 0.2/791.4 + 0.8/954
        ("100 % w/w", "100 % w/w as 100 % v/v"),
        ("20 % mol", "20 % mol as 18 % v/v"),  # 0.154 by mass
    ],
)
def test_the_share_by_volume_is_told(share: str, volume: str) -> None:
    said = reason((ISO % "% w/w").replace("20 % w/w", share))
    assert f"where the CO2 pump meters mass {volume}" in said
    assert "CO2 at 954 and methanol at 791 kg/m3" in said


def test_rows_are_told_one_by_one_and_once() -> None:
    rows = (
        "programme: [{time: 0 min, modifier_share: 5 % w/w}, {time: 4 min, modifier_share: "
        "40 % w/w}, {time: 5 min, modifier_share: 5 % w/w}]\n"
    )
    # 0.05/791.4 of 0.05/791.4 + 0.95/954; 0.4/791.4 of 0.4/791.4 + 0.6/954
    assert "meters mass 5 % w/w as 5.97 % v/v, 40 % w/w as 44.6 % v/v (" in reason(rows)


def test_a_modifier_that_is_not_known_leaves_the_figure_out() -> None:
    unknown = (ISO % "% w/w").replace("methanol", "nobody's liquid")
    said = reason(unknown)
    assert said.endswith(
        "only a share by volume, as the pumps set it, can be rehearsed; give % v/v"
    )


def test_a_mass_flow_is_told_what_a_gram_of_modifier_counts_as() -> None:
    """1/0.7914 mL of methanol (CRC Handbook)."""
    assert "1 g/min of methanol as 1.26" in reason("flow: 60 g/min\n")


def blend(first: str, second: str, basis: str, share: float) -> tuple[tuple[str, float], ...]:
    parts = [
        {"liquid": first, "share": f"{100 - share:g} {basis}"},
        {"liquid": second, "share": f"{share:g} {basis}"},
    ]
    return components_of(Liquid.model_validate({"liquids": parts}))


def test_a_blend_by_volume_keeps_its_figures() -> None:
    assert blend("methanol", "water", "% v/v", 5)[1] == ("water", pytest.approx(0.05))


def test_a_blend_by_mass_becomes_one_by_volume() -> None:
    """Methanol 0.7914, water 0.9982 g/mL at 20 degC (CRC Handbook): 5 g are 5.01 of 125.05 mL."""
    water = 5 / 0.9982
    methanol = 95 / 0.7914
    share = water / (water + methanol)
    assert blend("MeOH", "water", "% w/w", 5)[1] == ("water", pytest.approx(share, rel=0.003))


def test_a_blend_by_amount_becomes_one_by_volume() -> None:
    """Molar volumes at 20 degC: methanol 32.04/0.7914, water 18.015/0.9982 mL/mol (CRC Handbook)."""
    water, methanol = 10 * 18.015 / 0.9982, 90 * 32.04 / 0.7914
    share = water / (water + methanol)
    assert blend("methanol", "water", "% mol", 10)[1] == ("water", pytest.approx(share, rel=0.003))


def test_a_blend_with_an_unknown_liquid_keeps_its_figures() -> None:
    assert blend("methanol", "nobody's liquid", "% w/w", 10)[1][1] == pytest.approx(0.1)
