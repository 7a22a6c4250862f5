"""By volume, by mass or by amount: common practice, no source.

A millilitre of CO2 at 150 bar weighs 0.954 g at 10 degC and 1.000 g at 0 degC (Span and Wagner 1996),
one of methanol 0.792 g (20 degC, CRC Handbook of Chemistry and Physics, from memory): 20 % v/v are
0.2 x 0.792 / (0.2 x 0.792 + 0.8 x 0.954) = 17.2 % w/w behind the warmer head, 16.5 % behind the colder.
"""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.percent-basis-missing"


@pytest.mark.parametrize("basis", ["v/v", "w/w", "mol"])
def test_silent_where_the_basis_is_written(basis: str) -> None:
    assert found_in(f"kind: method\nmobile_phase: {{modifier_share: 20 % {basis}}}\n", RULE) == []


@pytest.mark.parametrize(
    "text",
    [
        "kind: method\nsuitability: {rsd: 2 %}\n",
        "kind: supply\ngrade: 99.995 %\n",
        "kind: instrument\nautosampler: {largest_part_fill: 50 %}\n",
        "kind: solvents\nbottles: [{line: a, liquids: [{liquid: water, share: 100 %}]}]\n",
    ],
    ids=["a spread", "a grade", "a part of a loop", "parts of a bottle, mixed by volume"],
)
def test_silent_for_percentages_that_have_one_meaning(text: str) -> None:
    assert found_in(text, RULE) == []


def test_every_share_without_a_basis_is_a_fault_at_its_place() -> None:
    rows = "  - {time: 0 min, modifier_share: 5 %}\n  - {time: 5 min, modifier_share: 40 % v/v}\n"
    rows += "  - {time: 6 min, modifier_share: 40 %}\n"
    found = found_in(f"kind: method\nprogramme:\n{rows}", RULE)
    assert [one.grade for one in found] == ["fault", "fault"]
    assert [one.at.path[1] for one in found] == [0, 2]


def test_both_readings_differ_by_what_the_densities_say() -> None:
    (found,) = found_in("kind: method\nmobile_phase: {modifier_share: 20 %}\n", RULE)
    assert "about 17 % w/w" in found.message
    assert '"20 % v/v"' in found.remedy


def test_the_level_of_an_additive_needs_one_too_and_none_is_guessed() -> None:
    text = "kind: method\nmobile_phase: {modifier: {additives: [{additive: DEA, level: 0.1 %}]}}\n"
    report = report_on(text, RULE)
    (found,) = report.findings
    assert found.at.path[-1] == "level"
    assert "w/w" in found.remedy
    assert found.at.path in report.documents["page.yaml"].broken
