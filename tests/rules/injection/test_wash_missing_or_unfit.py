"""Needle washes (common practice, no source)."""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "injection.wash-missing-or-unfit"
WIDE = (
    "kind: sequence\nlines:\n"
    "  - {kind: calibrator, sample: C1, level: 1, well: B1}\n"
    "  - {kind: calibrator, sample: C6, level: 5000, well: B6}\n"
)


def bottles(*items: str) -> str:
    return f"kind: solvents\nbottles: [{', '.join('{' + item + '}' for item in items)}]\n"


def said(*parts: str) -> list[Finding]:
    return findings("---\n".join(part.rstrip() + "\n" for part in parts), RULE)


def test_silent_for_an_outside_wash_however_strong_and_whatever_salt() -> None:
    wash = "line: needle-wash, liquid: acetonitrile, enters_flow: {}"
    salty = "kind: sequence\ndiluent: {liquid: MTBE, additives: [{additive: AmAc, level: 5 mM}]}\n"
    assert said(bottles(wash.format("false")), salty) == []
    assert len(said(bottles(wash.format("true")), salty)) == 2


def test_silent_without_a_wide_calibration_even_without_a_wash() -> None:
    none = bottles("line: modifier-1, liquid: methanol")
    assert said(none) == []
    (finding,) = said(none, WIDE)
    assert "spans a factor of 5000 and no bottle is a needle wash" in finding.message


def test_silent_where_a_weak_wash_comes_last() -> None:
    strong = "line: strong-wash, liquid: methanol, enters_flow: true"
    weak = "line: weak-wash, liquid: 2-propanol, enters_flow: true"
    assert said(bottles(weak, strong)) == []
    (finding,) = said(bottles(strong))
    assert finding.grade == "caution"
    assert "the last wash methanol stays in the loop" in finding.message
    assert finding.remedy == "wash first with methanol, then with 2-propanol or weaker"


def test_three_needle_volumes_for_a_wide_calibration() -> None:
    little = "kind: instrument\nautosampler: {wash_volume: 40 uL, needle_volume: 15 uL}\n"
    assert said(little) == []
    (finding,) = said(WIDE, little)
    assert "40 uL of wash are less than three needle volumes, 45 uL" in finding.message
    assert finding.remedy == "wash with 45 uL"
    assert said(WIDE, little.replace("40 uL", "45 uL")) == []


@pytest.mark.parametrize(
    ("analytes", "liquid", "loud"),
    [
        ("lipids", "acetonitrile", True),
        ("lipids", "water", True),
        ("lipids", "2-propanol", False),
        ("waxes", "methanol", True),
        ("hydrocarbons", "heptane", False),
        ("polar", "heptane", True),
        ("polar", "2-propanol", False),
        ("ionisable", "2-propanol", False),
        ("mixed", "heptane", True),
        ("mixed", "2-propanol", False),
    ],
)
def test_a_wash_dissolves_the_analytes(analytes: str, liquid: str, loud: bool) -> None:
    wash = bottles(f"line: needle-wash, liquid: {liquid}, enters_flow: false")
    found = said(wash, f"kind: method\nanalytes: {analytes}\n")
    assert [f"dissolves {analytes}" in finding.message for finding in found] == [True] * loud


def test_one_of_two_washes_is_enough() -> None:
    two = bottles(
        "line: strong-wash, liquid: heptane, enters_flow: false",
        "line: weak-wash, liquid: 2-propanol, enters_flow: false",
    )
    assert said(two) == []


def test_a_wash_that_throws_the_diluent_s_salt_out() -> None:
    wash = bottles("line: needle-wash, liquid: acetonitrile, enters_flow: true")
    diluent = "{{liquid: {}, additives: [{{additive: ammonium acetate, level: 5 mM}}]}}"
    (finding,) = said(wash, f"kind: sequence\ndiluent: {diluent.format('methanol')}\n")
    assert finding.grade == "fault"
    assert "ammonium acetate of the diluent methanol falls out in the wash acetonitrile" in (
        finding.message
    )


def test_missing_figures_are_not_checked() -> None:
    report = judged(f"{WIDE}---\nkind: instrument\nautosampler: {{wash_volume: null}}\n", RULE)
    assert report.not_checked[0].missing == ("instrument.autosampler.wash_volume",)
    report = judged("kind: method\nanalytes: null\n", RULE)
    assert report.not_checked[0].missing == ("method.analytes",)
    wash = bottles("line: needle-wash, liquid: 2-propanol")
    report = judged(f"{wash}---\nkind: instrument\nautosampler: {{wash_enters_loop: null}}\n", RULE)
    assert report.not_checked[0].missing == ("instrument.autosampler.wash_enters_loop",)
